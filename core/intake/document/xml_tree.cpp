#include "core/intake/document/xml_tree.h"

#include <algorithm>
#include <utility>

namespace panel_dossier {

namespace {

XmlMark mark_of(std::string_view local) {
  constexpr std::array kMarks{
      std::pair{std::string_view("id"), XmlMark::id},
      std::pair{std::string_view("ref"), XmlMark::ref},
      std::pair{std::string_view("href"), XmlMark::href},
      std::pair{std::string_view("type"), XmlMark::type},
      std::pair{std::string_view("pos"), XmlMark::position},
      std::pair{std::string_view("GlobalId"), XmlMark::global_id},
  };
  for (const auto& [name, mark] : kMarks) {
    if (name == local) return mark;
  }
  return XmlMark::none;
}

XmlName name_of(std::string_view qualified) {
  XmlName name;
  name.qualified = qualified;
  const std::size_t colon = qualified.find(':');
  name.local = colon == std::string_view::npos ? qualified : qualified.substr(colon + 1);
  name.is_declaration = qualified == "xmlns" || qualified.starts_with("xmlns:");
  name.asked = name.is_declaration ? qualified : name.local;
  if (!name.is_declaration) name.mark = mark_of(name.local);
  return name;
}

}  // namespace

void XmlTree::reserve_for(std::string_view document) {
  // The front of a large document tells of the rest: an element has a mark of its own, and one of its end unless it is
  // empty; an attribute has an equals sign. Where it tells too little the lists grow.
  constexpr std::size_t kFront_bytes = 1U << 20U;
  const std::string_view front = document.substr(0, kFront_bytes);
  const std::size_t fronts = document.size() / kFront_bytes + 1;
  nodes_.reserve(static_cast<std::size_t>(std::count(front.begin(), front.end(), '<')) * fronts);
  attributes_.reserve(static_cast<std::size_t>(std::count(front.begin(), front.end(), '=')) * fronts);
}

void XmlTree::begin_element(std::string_view qualified_name, std::size_t offset) {
  const auto index = static_cast<std::uint32_t>(nodes_.size());
  XmlNode& node = nodes_.emplace_back();
  node.offset = offset;
  node.name = name_index(qualified_name) & 0x3FFFFFFFU;
  node.first_attribute = static_cast<std::uint32_t>(attributes_.size());
  if (!open_.empty()) {
    Open& owner = open_.back();
    node.parent = owner.node;
    if (owner.last_child != XmlNode::kNone) nodes_[owner.last_child].next_sibling = index;
    owner.last_child = index;
    nodes_[owner.node].has_children = 1;
  }
  open_.push_back({index, XmlNode::kNone});
}

void XmlTree::add_attribute(std::string_view qualified_name, std::string_view value) {
  attributes_.push_back({value.data(), static_cast<std::uint32_t>(value.size()), name_index(qualified_name)});
}

void XmlTree::add_text(std::string_view text) {
  XmlNode& node = nodes_[open_.back().node];
  node.text = text.data();
  node.text_length = static_cast<std::uint32_t>(text.size());
}

void XmlTree::add_split_text(std::string_view text) {
  XmlNode& node = nodes_[open_.back().node];
  const std::string_view before(node.text, node.text_length);
  add_text(keep(std::string(before).append(text)));
  node.is_split = 1;
}

void XmlTree::end_element() {
  open_.pop_back();
}

std::uint32_t XmlTree::name_index(std::string_view qualified) {
  const auto byte = [&](std::size_t at) { return static_cast<std::size_t>(static_cast<unsigned char>(qualified[at])); };
  const std::size_t middle = qualified.size() / 2;
  const std::size_t mixed = qualified.size() * 31 + byte(0) * 7 + byte(middle) * 13 + byte(qualified.size() - 1) * 5;
  std::uint32_t& recent = recent_names_[mixed % recent_names_.size()];
  if (recent < names_.size() && names_[recent].qualified == qualified) return recent;
  const auto [known, is_new] = known_names_.try_emplace(qualified, static_cast<std::uint32_t>(names_.size()));
  if (is_new) names_.push_back(name_of(qualified));
  recent = known->second;
  return recent;
}

}  // namespace panel_dossier
