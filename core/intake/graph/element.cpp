#include "core/intake/graph/element.h"

#include <cstring>
#include <pugixml.hpp>

namespace panel_dossier {

namespace {

bool is_namespace_declaration(const char* written) {
  return std::strncmp(written, "xmlns", 5) == 0 && (written[5] == '\0' || written[5] == ':');
}

/// What stands behind the prefix.
const char* local_part(const char* written) {
  const char* colon = std::strchr(written, ':');
  return colon == nullptr ? written : colon + 1;
}

bool is_text(const char* written, std::string_view text) {
  std::size_t at = 0;
  while (at < text.size() && written[at] == text[at]) ++at;
  return at == text.size() && written[at] == '\0';
}

/// Most names have no prefix, so the whole is looked at first. By hand, for names are short and this is asked more than
/// anything else.
bool is_name(const char* written, std::string_view name) {
  std::size_t at = 0;
  while (at < name.size() && written[at] == name[at]) ++at;
  if (at == name.size() && written[at] == '\0') return true;
  while (written[at] != '\0' && written[at] != ':') ++at;
  return written[at] == ':' && is_text(written + at + 1, name) && !is_namespace_declaration(written);
}

pugi::xml_node_struct* first_element(pugi::xml_node node) {
  while (node && node.type() != pugi::node_element) node = node.next_sibling();
  return node.internal_object();
}

}  // namespace

pugi::xml_node_struct* Element::node() const {
  // The handle was made from a node that was not constant.
  return static_cast<pugi::xml_node_struct*>(const_cast<void*>(at_));
}

std::string_view Element::name() const {
  if (step_ != nullptr) return step_name();
  return local_part(pugi::xml_node(node()).name());
}

std::optional<std::string_view> Element::attribute(std::string_view local_name) const {
  if (step_ != nullptr) return local_name == "ref" ? step_reference() : std::nullopt;
  for (pugi::xml_attribute attribute = pugi::xml_node(node()).first_attribute(); attribute;
       attribute = attribute.next_attribute()) {
    if (is_name(attribute.name(), local_name)) return attribute.value();
  }
  return std::nullopt;
}

std::optional<std::string_view> Element::pointed_to() const {
  if (step_ != nullptr) return step_reference();
  for (pugi::xml_attribute attribute = pugi::xml_node(node()).first_attribute(); attribute;
       attribute = attribute.next_attribute()) {
    const char* name = attribute.name();
    if (is_name(name, "ref") || is_name(name, "href")) return attribute.value();
  }
  return std::nullopt;
}

ElementMarks Element::marks() const {
  ElementMarks marks;
  for (pugi::xml_attribute attribute = pugi::xml_node(node()).first_attribute(); attribute;
       attribute = attribute.next_attribute()) {
    if (is_namespace_declaration(attribute.name())) continue;
    const char* name = local_part(attribute.name());
    marks.has_attributes = true;
    const auto take = [&](std::string_view mark, std::optional<std::string_view>& found) {
      if (!found && is_text(name, mark)) found = attribute.value();
    };
    switch (*name) {
      case 'i': take("id", marks.id); break;
      case 'r': take("ref", marks.pointed_to); break;
      case 'h': take("href", marks.pointed_to); break;
      case 't': take("type", marks.type); break;
      case 'p': marks.has_position = marks.has_position || is_text(name, "pos"); break;
      case 'G': marks.has_global_id = marks.has_global_id || is_text(name, "GlobalId"); break;
      default: break;
    }
  }
  return marks;
}

bool Element::has_attributes() const {
  if (step_ != nullptr) return false;
  for (pugi::xml_attribute attribute = pugi::xml_node(node()).first_attribute(); attribute;
       attribute = attribute.next_attribute()) {
    if (!is_namespace_declaration(attribute.name())) return true;
  }
  return false;
}

Element Element::parent() const {
  if (step_ != nullptr) return attribute_ == kWholeInstance ? Element() : step_instance();
  const pugi::xml_node parent = pugi::xml_node(node()).parent();
  return parent.type() == pugi::node_element ? Element(parent.internal_object()) : Element();
}

Element Element::first_child() const {
  if (step_ != nullptr) return step_first_child();
  return Element(first_element(pugi::xml_node(node()).first_child()));
}

Element Element::next_sibling() const {
  if (step_ != nullptr) return step_next_sibling();
  return Element(first_element(pugi::xml_node(node()).next_sibling()));
}

Element Element::child(std::string_view local_name) const {
  if (step_ != nullptr) return step_child(local_name);
  for (pugi::xml_node child = pugi::xml_node(node()).first_child(); child; child = child.next_sibling()) {
    if (is_name(child.name(), local_name) && child.type() == pugi::node_element)
      return Element(child.internal_object());
  }
  return {};
}

std::string Element::text() const {
  if (step_ != nullptr) return step_text();
  const pugi::xml_node node(this->node());
  std::string text = node.value();
  for (const pugi::xml_node& child : node.children()) {
    if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata) text += child.value();
  }
  return text;
}

std::optional<std::string_view> Element::plain_text() const {
  if (step_ != nullptr) return step_plain_text();
  const pugi::xml_node node(this->node());
  if (node.first_child()) return std::nullopt;
  return node.value();
}

std::size_t Element::offset() const {
  if (step_ != nullptr) return step_offset();
  const std::ptrdiff_t offset = pugi::xml_node(node()).offset_debug();
  return offset < 0 ? 0 : static_cast<std::size_t>(offset);
}

std::string_view Element::namespace_uri() const {
  if (step_ != nullptr) return {};
  const std::string_view qualified = pugi::xml_node(node()).name();
  const std::size_t colon = qualified.find(':');
  std::string declaration = "xmlns";
  if (colon != std::string_view::npos) declaration += ":" + std::string(qualified.substr(0, colon));
  for (pugi::xml_node node(this->node()); node; node = node.parent()) {
    if (const pugi::xml_attribute found = node.attribute(declaration.c_str())) return found.value();
  }
  return {};
}

XmlDocument::XmlDocument() : document_(std::make_unique<pugi::xml_document>()) {}
XmlDocument::~XmlDocument() = default;

bool XmlDocument::parse_in_place(std::string& text) {
  // Text inside its element node halves the memory of the flat form, where every attribute is a child element.
  const unsigned int options = pugi::parse_default | pugi::parse_embed_pcdata;
  return static_cast<bool>(document_->load_buffer_inplace(text.data(), text.size(), options, pugi::encoding_utf8));
}

Element XmlDocument::root() const {
  return Element(document_->document_element().internal_object());
}

}  // namespace panel_dossier
