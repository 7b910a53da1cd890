// Streams XML to a file, one element a line, so that any number of panels can be written in constant memory.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace sample_export {

using Attribute = std::pair<std::string, std::string>;
using Attributes = std::vector<Attribute>;

/// The shortest text that reads back as the same number, with a point whatever the locale.
std::string number_text(double value);
/// The same after rounding to `decimals`, for sums that carry a rounding error.
std::string rounded_text(double value, int decimals);

/// Writes one document. Not copyable; not thread-safe. `finish` must be called, or the end of the file may be lost.
class XmlWriter {
 public:
  /// Closes its element when it goes out of scope.
  class Element {
   public:
    Element(XmlWriter& writer, const std::string& name, const Attributes& attributes);
    ~Element();
    Element(const Element&) = delete;
    Element& operator=(const Element&) = delete;
    Element(Element&&) = delete;
    Element& operator=(Element&&) = delete;

   private:
    XmlWriter& writer_;
  };

  /// Throws std::runtime_error when the file cannot be created.
  explicit XmlWriter(const std::filesystem::path& file);
  ~XmlWriter();
  XmlWriter(const XmlWriter&) = delete;
  XmlWriter& operator=(const XmlWriter&) = delete;
  XmlWriter(XmlWriter&&) = delete;
  XmlWriter& operator=(XmlWriter&&) = delete;

  [[nodiscard]] Element element(const std::string& name, const Attributes& attributes = {}) {
    return Element(*this, name, attributes);
  }
  /// An element without children.
  void leaf(const std::string& name, const Attributes& attributes);
  /// An element that holds text only.
  void text_element(const std::string& name, const std::string& text);
  /// `<name xsi:nil="true" ref="id"/>`, with `xsi:type` when the attribute's declared type is a supertype.
  void reference(const std::string& name, const std::string& id, const std::string& type = {});

  /// Ends the document and reports a full disk or the like. Throws std::runtime_error.
  void finish();

 private:
  struct Stream;
  std::unique_ptr<Stream> stream_;

  void open(const std::string& name, const Attributes& attributes);
  void close();
};

}  // namespace sample_export
