#include "core/intake/graph/element.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <pugixml.hpp>

namespace panel_dossier {

namespace {

bool is_name(const char* written, std::string_view name) {
  return std::strncmp(written, name.data(), name.size()) == 0 && written[name.size()] == '\0';
}

bool is_namespace_declaration(const char* written) {
  return std::strncmp(written, "xmlns", 5) == 0 && (written[5] == '\0' || written[5] == ':');
}

pugi::xml_node_struct* first_element(pugi::xml_node node) {
  while (node && node.type() != pugi::node_element) node = node.next_sibling();
  return node.internal_object();
}

/// What stands behind the prefix, in a buffer: pugixml copies names in place and may not read what it writes over.
/// Empty when there is no prefix.
constexpr std::size_t kLongestName = 256;
using NameBuffer = std::array<char, kLongestName>;

const char* without_prefix_in(const char* written, NameBuffer& buffer) {
  const char* colon = std::strchr(written, ':');
  const std::size_t size = colon == nullptr ? 0 : std::strlen(colon + 1);
  if (size == 0 || size >= buffer.size()) return nullptr;
  std::memcpy(buffer.data(), colon + 1, size + 1);
  return buffer.data();
}

void drop_prefixes_of(pugi::xml_node node) {
  NameBuffer buffer;
  if (const char* local = without_prefix_in(node.name(), buffer)) node.set_name(local);
  for (pugi::xml_attribute attribute : node.attributes()) {
    if (is_namespace_declaration(attribute.name())) continue;
    if (const char* local = without_prefix_in(attribute.name(), buffer)) attribute.set_name(local);
  }
}

}  // namespace

pugi::xml_node_struct* Element::node() const {
  // The handle was made from a node that was not constant.
  return static_cast<pugi::xml_node_struct*>(const_cast<void*>(at_));
}

std::string_view Element::name() const {
  if (step_ != nullptr) return step_name();
  return pugi::xml_node(node()).name();
}

std::optional<std::string_view> Element::attribute(std::string_view local_name) const {
  if (step_ != nullptr) return local_name == "ref" ? step_reference() : std::nullopt;
  for (const pugi::xml_attribute& attribute : pugi::xml_node(node()).attributes()) {
    if (is_name(attribute.name(), local_name)) return attribute.value();
  }
  return std::nullopt;
}

std::optional<std::string_view> Element::pointed_to() const {
  if (step_ != nullptr) return step_reference();
  for (const pugi::xml_attribute& attribute : pugi::xml_node(node()).attributes()) {
    const char* name = attribute.name();
    if (is_name(name, "ref") || is_name(name, "href")) return attribute.value();
  }
  return std::nullopt;
}

ElementMarks Element::marks() const {
  ElementMarks marks;
  for (const pugi::xml_attribute& attribute : pugi::xml_node(node()).attributes()) {
    const char* name = attribute.name();
    if (is_namespace_declaration(name)) continue;
    marks.has_attributes = true;
    const auto take = [&](std::string_view mark, std::optional<std::string_view>& found) {
      if (!found && is_name(name, mark)) found = attribute.value();
    };
    switch (*name) {
      case 'i': take("id", marks.id); break;
      case 'r': take("ref", marks.pointed_to); break;
      case 'h': take("href", marks.pointed_to); break;
      case 't': take("type", marks.type); break;
      case 'p': marks.has_position = marks.has_position || is_name(name, "pos"); break;
      case 'G': marks.has_global_id = marks.has_global_id || is_name(name, "GlobalId"); break;
      default: break;
    }
  }
  return marks;
}

bool Element::has_attributes() const {
  if (step_ != nullptr) return false;
  for (const pugi::xml_attribute& attribute : pugi::xml_node(node()).attributes()) {
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
  for (const pugi::xml_node& child : pugi::xml_node(node()).children()) {
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

void XmlDocument::drop_prefixes() {
  pugi::xml_node node = document_->first_child();
  while (node) {
    drop_prefixes_of(node);
    pugi::xml_node next = node.first_child();
    while (!next && node) {
      next = node.next_sibling();
      if (!next) node = node.parent();
    }
    node = next;
  }
}

Element XmlDocument::root() const {
  return Element(document_->document_element().internal_object());
}

}  // namespace panel_dossier
