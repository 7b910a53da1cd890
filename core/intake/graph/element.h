// One element of an export in either form, and the document that owns those of the XML form.
#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace panel_dossier {

class StepFile;
class XmlTree;
struct XmlNode;

/// What the attributes of a node of the XML form say about it, gathered in one pass over them.
struct ElementMarks {
  std::optional<std::string_view> id;
  std::optional<std::string_view> pointed_to;  ///< `ref` or `href`
  std::optional<std::string_view> type;        ///< `xsi:type`
  bool has_position = false;                   ///< `pos`
  bool has_global_id = false;
  bool has_attributes = false;  ///< any that is not a namespace declaration
};

/// A handle that may be empty; an empty one answers "nothing" to every question. Valid as long as its document.
///
/// In the XML form it is a node. In the STEP form it is an instance, the value of one of its attributes, or an item of
/// a list; it answers as a node of the flat XML form would: an instance has a child for each attribute that is given, a
/// list one for each item, a typed parameter one of the type's name. Names are local: a namespace prefix is never seen.
class Element {
 public:
  /// What a handle in a STEP file stands for, unless it is the value of the attribute of that position.
  static constexpr std::uint32_t kWholeInstance = std::numeric_limits<std::uint32_t>::max();
  static constexpr std::uint32_t kListItem = kWholeInstance - 1;
  static constexpr std::uint32_t kSingleValue = kWholeInstance - 2;  ///< what a typed parameter or attribute holds

  Element() = default;
  Element(const XmlTree& tree, const XmlNode& node) : at_(&node), document_(&tree) {}
  Element(const StepFile& file, const char* at, std::uint32_t instance, std::uint32_t attribute)
      : at_(at), document_(&file), instance_(instance), attribute_(attribute) {}

  explicit operator bool() const { return at_ != nullptr; }
  bool operator==(const Element& other) const { return at_ == other.at_; }

  std::string_view name() const;
  std::optional<std::string_view> attribute(std::string_view local_name) const;
  /// True when there are XML attributes that are not namespace declarations.
  bool has_attributes() const;

  Element parent() const;
  Element first_child() const;
  Element next_sibling() const;
  Element child(std::string_view local_name) const;

  /// All text directly inside, joined over comments and CDATA sections; in the STEP form decoded.
  std::string text() const;
  /// Byte offset of the element's name or value in the file.
  std::size_t offset() const;
  /// The namespace that the element's prefix stands for; empty when there is none.
  std::string_view namespace_uri() const;

  /// What `ref` or `href` says, or the number after `#`; none when the element points nowhere.
  std::optional<std::string_view> pointed_to() const;

  /// Of the XML form.
  ElementMarks marks() const;

  /// The text where it stands in the document as it is read, in one piece and not decoded; valid as long as the
  /// document.
  std::optional<std::string_view> plain_text() const;

  bool is_step() const { return attribute_ != kXmlNode; }
  /// The instance of a STEP file that the handle stands for or in; empty in the XML form.
  Element step_instance() const;
  /// The instance that a reference in a STEP file means; empty when there is none.
  Element step_target() const;
  /// Number of the instance that the handle stands for or in; 0 in the XML form.
  std::uint64_t step_number() const;

  /// Identity for hash maps; ascending in the order of the document.
  const void* key() const { return at_; }
  /// Number of the node in the tree of the XML form, from 0 in the order of the document. Only for one that is not
  /// empty.
  std::size_t xml_index() const;
  /// The node of that number in the same tree.
  Element xml_at(std::size_t index) const;

 private:
  static constexpr std::uint32_t kXmlNode = kWholeInstance - 3;

  const void* at_ = nullptr;        ///< the node, or a byte of the STEP file's text
  const void* document_ = nullptr;  ///< the tree, or the STEP file
  std::uint32_t instance_ = 0;
  std::uint32_t attribute_ = kXmlNode;

  const XmlTree& tree() const { return *static_cast<const XmlTree*>(document_); }
  const XmlNode& node() const;
  const StepFile* step() const { return static_cast<const StepFile*>(document_); }
  const char* step_at() const { return static_cast<const char*>(at_); }
  Element step_value(const char* at, std::uint32_t attribute) const;
  Element step_argument(std::uint32_t position) const;
  std::string_view step_name() const;
  Element step_first_child() const;
  Element step_next_sibling() const;
  Element step_child(std::string_view name) const;
  std::optional<std::string_view> step_reference() const;
  std::string step_text() const;
  std::optional<std::string_view> step_plain_text() const;
  std::size_t step_offset() const;
};

/// Owns the tree. The text must outlive the document.
class XmlDocument {
 public:
  XmlDocument();
  explicit XmlDocument(std::unique_ptr<XmlTree> tree);
  ~XmlDocument();
  XmlDocument(const XmlDocument&) = delete;
  XmlDocument& operator=(const XmlDocument&) = delete;

  /// False when the text is not well-formed. Rewrites the text.
  bool parse_in_place(std::string& text);
  Element root() const;

 private:
  std::unique_ptr<XmlTree> tree_;
};

}  // namespace panel_dossier
