// The tree of an XML document in little memory: its elements in the order of the document, names kept once, values
// where they stand in the text.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <deque>
#include <limits>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace panel_dossier {

/// What an attribute of that name may tell about its element, whatever the element is.
enum class XmlMark : std::uint8_t { none, id, ref, href, type, position, global_id };

struct XmlName {
  std::string_view qualified;  ///< as written
  std::string_view local;      ///< without the prefix
  std::string_view asked;      ///< what it is known by: the local part, of a namespace declaration the whole
  XmlMark mark = XmlMark::none;
  bool is_declaration = false;  ///< `xmlns` or `xmlns:…`
};

struct XmlAttribute {
  const char* value = nullptr;
  std::uint32_t length = 0;
  std::uint32_t name = 0;

  std::string_view text() const { return {value, length}; }
};

struct XmlNode {
  static constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();

  const char* text = nullptr;  ///< directly inside
  std::size_t offset = 0;      ///< of the name, in bytes of the document
  std::uint32_t text_length = 0;
  std::uint32_t name : 30 = 0;
  std::uint32_t has_children : 1 = 0;  ///< elements; the first is the next node
  std::uint32_t is_split : 1 = 0;      ///< the text, by comments, CDATA sections or elements
  std::uint32_t first_attribute = 0;
  std::uint32_t parent = kNone;
  std::uint32_t next_sibling = kNone;
};

/// Filled from the front to the back, then read. Texts and names that are handed in are not copied and must outlive it.
class XmlTree {
 public:
  XmlTree() = default;
  XmlTree(const XmlTree&) = delete;
  XmlTree& operator=(const XmlTree&) = delete;

  /// Room for what a document of these bytes can hold; memory is taken as it is used.
  void reserve_for(std::string_view document);
  void begin_element(std::string_view qualified_name, std::size_t offset);
  /// Of the element begun last, before anything inside of it.
  void add_attribute(std::string_view qualified_name, std::string_view value);
  /// Inside the element that is open, which has none yet.
  void add_text(std::string_view text);
  /// More of it, behind a comment or an element, or a CDATA section.
  void add_split_text(std::string_view text);
  void end_element();
  /// A text of the tree's own, for values that do not stand in the document as they are read.
  std::string_view keep(std::string text) { return kept_.emplace_back(std::move(text)); }

  const std::vector<XmlNode>& nodes() const { return nodes_; }
  const XmlName& name(std::uint32_t index) const { return names_[index]; }
  std::span<const XmlAttribute> attributes(const XmlNode& node) const {
    const bool is_last = &node == &nodes_.back();
    const std::size_t end = is_last ? attributes_.size() : (&node + 1)->first_attribute;
    return {attributes_.data() + node.first_attribute, end - node.first_attribute};
  }

 private:
  struct Open {
    std::uint32_t node;
    std::uint32_t last_child;
  };

  std::vector<XmlNode> nodes_;
  std::vector<XmlAttribute> attributes_;
  std::vector<XmlName> names_;
  std::unordered_map<std::string_view, std::uint32_t> known_names_;
  std::array<std::uint32_t, 256> recent_names_{};  ///< in front of the map
  std::deque<std::string> kept_;
  std::vector<Open> open_;

  std::uint32_t name_index(std::string_view qualified);
};

}  // namespace panel_dossier
