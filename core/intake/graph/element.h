// One element of the parsed XML, and the document that owns it.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace pugi {
struct xml_node_struct;
class xml_document;
}  // namespace pugi

namespace panel_dossier {

/// A handle that may be empty; an empty one answers "nothing" to every question. Valid as long as its document.
/// Names are local: a namespace prefix is never seen.
class Element {
 public:
  Element() = default;
  explicit Element(pugi::xml_node_struct* node) : node_(node) {}

  explicit operator bool() const { return node_ != nullptr; }
  bool operator==(const Element& other) const { return node_ == other.node_; }

  std::string_view name() const;
  std::optional<std::string_view> attribute(std::string_view local_name) const;
  /// Number of XML attributes that are not namespace declarations.
  bool has_attributes() const;

  Element parent() const;
  Element first_child() const;
  Element next_sibling() const;
  Element child(std::string_view local_name) const;

  /// All text directly inside, joined over comments and CDATA sections.
  std::string text() const;
  /// Byte offset of the element's name in the file.
  std::size_t offset() const;
  /// The namespace that the element's prefix stands for; empty when there is none.
  std::string_view namespace_uri() const;

  /// Identity for hash maps.
  const void* key() const { return node_; }

 private:
  pugi::xml_node_struct* node_ = nullptr;
};

/// Owns the tree. The text is parsed in place and must outlive the document.
class XmlDocument {
 public:
  XmlDocument();
  ~XmlDocument();

  /// False when the text is not well-formed; it was checked before, so that is a fault of ours.
  bool parse_in_place(std::string& text);
  /// Byte of the text at which parsing failed.
  std::size_t fault_offset() const { return fault_offset_; }
  Element root() const;

 private:
  std::size_t fault_offset_ = 0;
  std::unique_ptr<pugi::xml_document> document_;
};

}  // namespace panel_dossier
