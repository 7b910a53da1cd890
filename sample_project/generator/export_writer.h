// What the generator says of the project, in the terms of ifcXML of IFC4; the form in which it is written is the
// writer's.
#pragma once

#include <string>
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
class ExportWriter {
 public:
  /// Closes its element when it goes out of scope.
  class Element {
   public:
    Element(ExportWriter& writer, const std::string& name, const Attributes& attributes);
    ~Element();
    Element(const Element&) = delete;
    Element& operator=(const Element&) = delete;
    Element(Element&&) = delete;
    Element& operator=(Element&&) = delete;

   private:
    ExportWriter& writer_;
  };

  ExportWriter() = default;
  virtual ~ExportWriter() = default;
  ExportWriter(const ExportWriter&) = delete;
  ExportWriter& operator=(const ExportWriter&) = delete;
  ExportWriter(ExportWriter&&) = delete;
  ExportWriter& operator=(ExportWriter&&) = delete;

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
  virtual void finish() = 0;

 protected:
  virtual void open(const std::string& name, const Attributes& attributes) = 0;
  virtual void text(const std::string& text) = 0;
  virtual void close() = 0;
};

}  // namespace sample_export
