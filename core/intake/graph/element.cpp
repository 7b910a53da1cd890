#include "core/intake/graph/element.h"

#include <algorithm>
#include <pugixml.hpp>
#include <utility>

#include "core/intake/document/xml_tree.h"

namespace panel_dossier {

namespace {

bool is_name(const XmlName& written, std::string_view name) {
  return written.asked == name || (written.asked.size() != written.qualified.size() && written.qualified == name);
}

void copy_element(const pugi::xml_node& node, XmlTree& tree) {
  const std::ptrdiff_t offset = node.offset_debug();
  tree.begin_element(node.name(), offset < 0 ? 0 : static_cast<std::size_t>(offset));
  for (const pugi::xml_attribute& attribute : node.attributes())
    tree.add_attribute(attribute.name(), attribute.value());
  if (*node.value() != '\0') tree.add_text(node.value());
}

/// Without recursion, for what is no export may be nested as deep as it likes.
void copy_tree(const pugi::xml_node& root, XmlTree& tree) {
  for (pugi::xml_node node = root; node;) {
    const bool is_element = node.type() == pugi::node_element;
    if (is_element) {
      copy_element(node, tree);
    } else if (node.type() == pugi::node_pcdata || node.type() == pugi::node_cdata) {
      tree.add_split_text(node.value());
    }
    if (is_element && node.first_child()) {
      node = node.first_child();
      continue;
    }
    if (is_element) tree.end_element();
    while (node != root && !node.next_sibling()) {
      node = node.parent();
      tree.end_element();
    }
    node = node == root ? pugi::xml_node() : node.next_sibling();
  }
}

}  // namespace

const XmlNode& Element::node() const {
  return *static_cast<const XmlNode*>(at_);
}

Element Element::xml_at(std::size_t index) const {
  return index == XmlNode::kNone ? Element() : Element(tree(), tree().nodes()[index]);
}

std::size_t Element::xml_index() const {
  return static_cast<std::size_t>(&node() - tree().nodes().data());
}

std::string_view Element::name() const {
  if (is_step()) return step_name();
  return at_ == nullptr ? std::string_view() : tree().name(node().name).local;
}

std::optional<std::string_view> Element::attribute(std::string_view local_name) const {
  if (is_step()) return local_name == "ref" ? step_reference() : std::nullopt;
  if (at_ == nullptr) return std::nullopt;
  for (const XmlAttribute& attribute : tree().attributes(node())) {
    if (is_name(tree().name(attribute.name), local_name)) return attribute.text();
  }
  return std::nullopt;
}

std::optional<std::string_view> Element::pointed_to() const {
  if (is_step()) return step_reference();
  if (at_ == nullptr) return std::nullopt;
  for (const XmlAttribute& attribute : tree().attributes(node())) {
    const XmlMark mark = tree().name(attribute.name).mark;
    if (mark == XmlMark::ref || mark == XmlMark::href) return attribute.text();
  }
  return std::nullopt;
}

ElementMarks Element::marks() const {
  ElementMarks marks;
  for (const XmlAttribute& attribute : tree().attributes(node())) {
    const XmlName& name = tree().name(attribute.name);
    if (name.is_declaration) continue;
    marks.has_attributes = true;
    const auto take = [&](std::optional<std::string_view>& found) {
      if (!found) found = attribute.text();
    };
    switch (name.mark) {
      case XmlMark::id: take(marks.id); break;
      case XmlMark::ref:
      case XmlMark::href: take(marks.pointed_to); break;
      case XmlMark::type: take(marks.type); break;
      case XmlMark::position: marks.has_position = true; break;
      case XmlMark::global_id: marks.has_global_id = true; break;
      case XmlMark::none: break;
    }
  }
  return marks;
}

bool Element::has_attributes() const {
  if (is_step() || at_ == nullptr) return false;
  const auto attributes = tree().attributes(node());
  return std::any_of(attributes.begin(), attributes.end(),
                     [&](const XmlAttribute& attribute) { return !tree().name(attribute.name).is_declaration; });
}

Element Element::parent() const {
  if (is_step()) return attribute_ == kWholeInstance ? Element() : step_instance();
  return at_ == nullptr ? Element() : xml_at(node().parent);
}

Element Element::first_child() const {
  if (is_step()) return step_first_child();
  return at_ == nullptr || !node().has_children ? Element() : Element(tree(), *(&node() + 1));
}

Element Element::next_sibling() const {
  if (is_step()) return step_next_sibling();
  return at_ == nullptr ? Element() : xml_at(node().next_sibling);
}

Element Element::child(std::string_view local_name) const {
  if (is_step()) return step_child(local_name);
  for (Element child = first_child(); child; child = child.next_sibling()) {
    if (is_name(tree().name(child.node().name), local_name)) return child;
  }
  return {};
}

std::string Element::text() const {
  if (is_step()) return step_text();
  return at_ == nullptr || node().text == nullptr ? std::string() : std::string(node().text, node().text_length);
}

std::optional<std::string_view> Element::plain_text() const {
  if (is_step()) return step_plain_text();
  if (at_ == nullptr || node().has_children || node().is_split) return std::nullopt;
  return std::string_view(node().text, node().text_length);
}

std::size_t Element::offset() const {
  if (is_step()) return step_offset();
  return at_ == nullptr ? 0 : node().offset;
}

std::string_view Element::namespace_uri() const {
  if (is_step() || at_ == nullptr) return {};
  const std::string_view qualified = tree().name(node().name).qualified;
  const std::size_t colon = qualified.find(':');
  std::string declaration = "xmlns";
  if (colon != std::string_view::npos) declaration += ":" + std::string(qualified.substr(0, colon));
  for (Element element = *this; element; element = element.parent()) {
    if (const auto found = element.attribute(declaration)) return *found;
  }
  return {};
}

XmlDocument::XmlDocument() : tree_(std::make_unique<XmlTree>()) {}
XmlDocument::XmlDocument(std::unique_ptr<XmlTree> tree) : tree_(std::move(tree)) {}
XmlDocument::~XmlDocument() = default;

bool XmlDocument::parse_in_place(std::string& text) {
  const unsigned int options = pugi::parse_default | pugi::parse_embed_pcdata;
  pugi::xml_document document;
  tree_ = std::make_unique<XmlTree>();
  if (!document.load_buffer_inplace(text.data(), text.size(), options, pugi::encoding_utf8)) return false;
  copy_tree(document.document_element(), *tree_);
  return true;
}

Element XmlDocument::root() const {
  return tree_ == nullptr || tree_->nodes().empty() ? Element() : Element(*tree_, tree_->nodes().front());
}

}  // namespace panel_dossier
