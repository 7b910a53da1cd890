#include "core/intake/graph/element.h"

#include <algorithm>
#include <pugixml.hpp>

namespace panel_dossier {

namespace {

std::string_view local_part(std::string_view qualified) {
  const std::size_t colon = qualified.rfind(':');
  return colon == std::string_view::npos ? qualified : qualified.substr(colon + 1);
}

bool is_namespace_declaration(std::string_view qualified) {
  return qualified == "xmlns" || qualified.substr(0, 6) == "xmlns:";
}

pugi::xml_node_struct* first_element(pugi::xml_node node) {
  while (node && node.type() != pugi::node_element) node = node.next_sibling();
  return node.internal_object();
}

}  // namespace

std::string_view Element::name() const {
  return local_part(pugi::xml_node(node_).name());
}

std::optional<std::string_view> Element::attribute(std::string_view local_name) const {
  for (const pugi::xml_attribute& attribute : pugi::xml_node(node_).attributes()) {
    const std::string_view qualified = attribute.name();
    if (local_part(qualified) == local_name && !is_namespace_declaration(qualified)) return attribute.value();
  }
  return std::nullopt;
}

bool Element::has_attributes() const {
  for (const pugi::xml_attribute& attribute : pugi::xml_node(node_).attributes()) {
    if (!is_namespace_declaration(attribute.name())) return true;
  }
  return false;
}

Element Element::parent() const {
  const pugi::xml_node parent = pugi::xml_node(node_).parent();
  return parent.type() == pugi::node_element ? Element(parent.internal_object()) : Element();
}

Element Element::first_child() const {
  return Element(first_element(pugi::xml_node(node_).first_child()));
}

Element Element::next_sibling() const {
  return Element(first_element(pugi::xml_node(node_).next_sibling()));
}

Element Element::child(std::string_view local_name) const {
  for (Element child = first_child(); child; child = child.next_sibling()) {
    if (child.name() == local_name) return child;
  }
  return {};
}

std::string Element::text() const {
  const pugi::xml_node node(node_);
  std::string text = node.value();
  for (const pugi::xml_node& child : node.children()) {
    if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata) text += child.value();
  }
  return text;
}

std::size_t Element::offset() const {
  const std::ptrdiff_t offset = pugi::xml_node(node_).offset_debug();
  return offset < 0 ? 0 : static_cast<std::size_t>(offset);
}

std::string_view Element::namespace_uri() const {
  const std::string_view qualified = pugi::xml_node(node_).name();
  const std::size_t colon = qualified.find(':');
  std::string declaration = "xmlns";
  if (colon != std::string_view::npos) declaration += ":" + std::string(qualified.substr(0, colon));
  for (pugi::xml_node node(node_); node; node = node.parent()) {
    if (const pugi::xml_attribute found = node.attribute(declaration.c_str())) return found.value();
  }
  return {};
}

XmlDocument::XmlDocument() : document_(std::make_unique<pugi::xml_document>()) {}
XmlDocument::~XmlDocument() = default;

bool XmlDocument::parse_in_place(std::string& text) {
  // Text inside its element node halves the memory of the flat form, where every attribute is a child element.
  const unsigned int options = pugi::parse_default | pugi::parse_embed_pcdata;
  const pugi::xml_parse_result result =
      document_->load_buffer_inplace(text.data(), text.size(), options, pugi::encoding_utf8);
  fault_offset_ = static_cast<std::size_t>(std::max<std::ptrdiff_t>(result.offset, 0));
  return static_cast<bool>(result);
}

Element XmlDocument::root() const {
  return Element(document_->document_element().internal_object());
}

}  // namespace panel_dossier
