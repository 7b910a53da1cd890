#include "sample_project/generator/step_writer.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdio>
#include <sstream>
#include <stdexcept>
#include <utility>

namespace sample_export {

namespace {

using panel_dossier::StepAttribute;
using panel_dossier::StepEntity;
using panel_dossier::StepKind;
using panel_dossier::StepPresence;
using panel_dossier::StepType;

struct Inverse {
  const char* name;
  const char* end;  ///< the attribute of what stands inside that names the owner
};

constexpr std::array kInverses{
    Inverse{"IsDecomposedBy", "RelatingObject"},      Inverse{"ContainsElements", "RelatingStructure"},
    Inverse{"HasAssociations", "RelatedObjects"},     Inverse{"IsDefinedBy", "RelatedObjects"},
    Inverse{"IsTypedBy", "RelatedObjects"},           Inverse{"HasOpenings", "RelatingBuildingElement"},
    Inverse{"HasFillings", "RelatingOpeningElement"}, Inverse{"Declares", "RelatingContext"},
    Inverse{"HasSubContexts", "ParentContext"},       Inverse{"HasProperties", "Material"},
};

std::string upper(std::string text) {
  for (char& c : text) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return text;
}

const std::string* find_attribute(const Attributes& attributes, const std::string& name) {
  const auto found = std::find_if(attributes.begin(), attributes.end(),
                                  [&](const Attribute& attribute) { return attribute.first == name; });
  return found == attributes.end() ? nullptr : &found->second;
}

/// `12` -> `12.`, `1e-05` -> `1.E-05`.
std::string real_text(const std::string& number) {
  const std::size_t exponent = number.find('e');
  std::string text = number.substr(0, exponent);
  if (text.find('.') == std::string::npos) text += '.';
  return exponent == std::string::npos ? text : text + "E" + number.substr(exponent + 1);
}

std::string logical_text(const std::string& text) {
  return text == "true" ? ".T." : text == "false" ? ".F." : ".U.";
}

std::string list_text(const std::vector<std::string>& items) {
  std::string text = "(";
  for (const std::string& item : items) text += (text.size() > 1 ? "," : "") + item;
  return text + ")";
}

std::string reference_text(std::uint64_t number) {
  return "#" + std::to_string(number);
}

/// The code of the UTF-8 sequence at `at`, which is moved behind it.
char32_t next_character(const std::string& text, std::size_t& at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned lead = byte(at);
  const std::size_t length = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
  char32_t code = length == 1 ? lead : lead & (0x7FU >> length);
  for (std::size_t i = 1; i < length && at + i < text.size(); ++i) code = (code << 6U) | (byte(at + i) & 0x3FU);
  at += length;
  return code;
}

}  // namespace

std::string step_string(const std::string& utf8) {
  std::string text = "'";
  for (std::size_t at = 0; at < utf8.size();) {
    const char32_t c = next_character(utf8, at);
    if (c >= 0x20 && c < 0x7F) {
      text += static_cast<char>(c);
      if (c == '\'' || c == '\\') text += static_cast<char>(c);
    } else {
      std::array<char, 32> buffer{};
      const bool is_basic = c < 0x10000;
      std::snprintf(buffer.data(), buffer.size(), is_basic ? "\\X2\\%04X\\X0\\" : "\\X4\\%08X\\X0\\",
                    static_cast<unsigned>(c));
      text += buffer.data();
    }
  }
  return text + "'";
}

StepWriter::StepWriter(const std::filesystem::path& file, const panel_dossier::StepSchema& schema)
    : schema_(schema), stream_(file, std::ios::binary | std::ios::trunc) {
  if (!stream_) throw std::runtime_error("cannot write '" + file.string() + "'");
}

StepWriter::Open& StepWriter::push(Role role, const std::string& name) {
  Open element;
  element.role = role;
  element.name = name;
  open_.push_back(std::move(element));
  return open_.back();
}

const StepEntity& StepWriter::entity_named(const std::string& name) const {
  const std::uint16_t found = schema_.find_entity(upper(name));
  if (found == panel_dossier::kNoStepEntity) throw std::logic_error("the schema has no entity '" + name + "'");
  return schema_.entity(found);
}

StepWriter::Number StepWriter::number_of(const std::string& id) {
  const auto [found, is_new] = numbers_.try_emplace(id, 0);
  if (is_new) found->second = ++last_;
  return found->second;
}

StepWriter::Open& StepWriter::push_entity(const std::string& type, const Attributes& attributes) {
  Open& element = push(Role::entity, type);
  element.entity = &entity_named(type);
  const std::string* id = find_attribute(attributes, "id");
  element.id = id == nullptr ? std::string() : *id;
  element.number = id == nullptr ? ++last_ : number_of(*id);
  element.arguments.resize(element.entity->argument_count);
  set_attributes(element, attributes);
  return element;
}

void StepWriter::set_attributes(Open& element, const Attributes& attributes) {
  for (const auto& [name, text] : attributes) {
    if (name == "id" || name.starts_with("xsi:") || name.starts_with("xmlns")) continue;
    const auto& known = element.entity->attributes;
    const auto found =
        std::find_if(known.begin(), known.end(), [&, n = name](const StepAttribute& each) { return each.name == n; });
    if (found == known.end()) throw std::logic_error("'" + element.name + "' has no attribute '" + name + "'");
    element.arguments[static_cast<std::size_t>(found - known.begin())] = {value_text(found->type, text)};
  }
}

std::string StepWriter::value_text(const StepType& type, const std::string& text) const {
  if (type.levels > 0) {
    StepType inner = type;
    --inner.levels;
    std::vector<std::string> items;
    std::istringstream words(text);
    for (std::string word; words >> word;) items.push_back(value_text(inner, word));
    return list_text(items);
  }
  switch (type.kind) {
    case StepKind::text: return step_string(text);
    case StepKind::real: return real_text(text);
    case StepKind::integer:
    case StepKind::number: return text;
    case StepKind::boolean:
    case StepKind::logical: return logical_text(text);
    case StepKind::enumeration: return "." + upper(text) + ".";
    default: break;
  }
  throw std::logic_error("'" + text + "' cannot be written as a value of its attribute");
}

void StepWriter::open(const std::string& name, const Attributes& attributes) {
  if (open_.empty()) {
    push(Role::document, name);
    return;
  }
  switch (open_.back().role) {
    case Role::document:
      if (name == "header") {
        push(Role::header, name);
      } else {
        push_entity(name, attributes);
      }
      return;
    case Role::header: push(Role::header_text, name); return;
    case Role::attribute: return open_in_attribute(name, attributes);
    case Role::inverse: return open_in_inverse(name, attributes);
    case Role::entity: return open_in_entity(name, attributes);
    default: break;
  }
  throw std::logic_error("'" + name + "' stands where nothing can");
}

void StepWriter::open_in_entity(const std::string& name, const Attributes& attributes) {
  const Open& owner = open_.back();
  const auto& known = owner.entity->attributes;
  const auto found =
      std::find_if(known.begin(), known.end(), [&](const StepAttribute& each) { return each.name == name; });
  if (found == known.end()) {
    const auto inverse =
        std::find_if(kInverses.begin(), kInverses.end(), [&](const Inverse& each) { return each.name == name; });
    if (inverse == kInverses.end()) throw std::logic_error("'" + owner.name + "' has no attribute '" + name + "'");
    const Number number = owner.number;
    Open& element = push(Role::inverse, name);
    element.number = number;
    element.end = inverse->end;
    return;
  }
  const auto position = static_cast<std::size_t>(found - known.begin());
  if (const std::string* id = find_attribute(attributes, "ref")) {
    open_.back().arguments[position].push_back(reference_text(number_of(*id)));
    push(Role::pointer, name);
    return;
  }
  const std::string* type = find_attribute(attributes, "xsi:type");
  const bool is_declared = found->type.kind == StepKind::entity && found->type.levels == 0;
  if (type != nullptr || (is_declared && !attributes.empty())) {
    const std::string entity = type != nullptr ? *type : std::string(schema_.entity(found->type.index).name);
    Open& element = push_entity(entity, attributes);
    element.is_argument = true;
    element.position = position;
    return;
  }
  Open& element = push(Role::attribute, name);
  element.position = position;
  if (is_declared) element.entity = &schema_.entity(found->type.index);
}

/// An element of an attribute without attributes of its own turns out to be the entity itself.
void StepWriter::become_entity(Open& attribute) {
  attribute.role = Role::entity;
  attribute.name = attribute.entity->name;
  attribute.number = ++last_;
  attribute.arguments.resize(attribute.entity->argument_count);
  attribute.is_argument = true;
}

void StepWriter::open_in_attribute(const std::string& name, const Attributes& attributes) {
  constexpr const char* kWrapper = "-wrapper";
  if (const std::string* id = find_attribute(attributes, "ref")) {
    open_.back().items.push_back(reference_text(number_of(*id)));
    push(Role::pointer, name);
  } else if (name.ends_with(kWrapper)) {
    push(Role::value, name.substr(0, name.size() - std::string(kWrapper).size()));
  } else if (name.starts_with("Ifc")) {
    push_entity(name, attributes);
  } else if (open_.back().entity != nullptr) {
    become_entity(open_.back());
    open_in_entity(name, attributes);
  } else {
    throw std::logic_error("'" + name + "' is no value of '" + open_.back().name + "'");
  }
}

void StepWriter::open_in_inverse(const std::string& name, const Attributes& attributes) {
  const std::string end = open_.back().end;
  const std::string owner = reference_text(open_.back().number);
  const auto end_of = [&](const Open& relationship) {
    const auto& known = relationship.entity->attributes;
    const auto found =
        std::find_if(known.begin(), known.end(), [&](const StepAttribute& each) { return each.name == end; });
    if (found == known.end()) throw std::logic_error("'" + relationship.name + "' has no attribute '" + end + "'");
    return static_cast<std::size_t>(found - known.begin());
  };
  if (const std::string* id = find_attribute(attributes, "ref")) {
    Open& shared = waiting_.at(shared_.at(*id));
    shared.arguments[end_of(shared)].push_back(owner);
    push(Role::pointer, name);
    return;
  }
  Open& relationship = push_entity(name, attributes);
  relationship.arguments[end_of(relationship)].push_back(owner);
}

void StepWriter::text(const std::string& text) {
  Open& element = open_.back();
  if (element.role == Role::header_text) header_[element.name] = text;
  if (element.role != Role::value) return;
  const auto* type = schema_.find_type(upper(element.name));
  if (type == nullptr) throw std::logic_error("the schema has no type '" + element.name + "'");
  element.items = {upper(element.name) + "(" + value_text(type->type, text) + ")"};
}

void StepWriter::deliver(const std::string& item) {
  if (!open_.empty() && open_.back().role == Role::attribute) open_.back().items.push_back(item);
}

void StepWriter::close() {
  Open element = std::move(open_.back());
  open_.pop_back();
  switch (element.role) {
    case Role::header: write_header(); break;
    case Role::value: deliver(element.items.at(0)); break;
    case Role::attribute: {
      std::vector<std::string>& argument = open_.back().arguments[element.position];
      argument.insert(argument.end(), element.items.begin(), element.items.end());
      break;
    }
    case Role::entity: {
      const std::string reference = reference_text(element.number);
      if (element.is_argument) {
        open_.back().arguments[element.position] = {reference};
      } else {
        deliver(reference);
      }
      const bool is_shared = !element.id.empty() && !open_.empty() && open_.back().role == Role::inverse &&
                             element.name.starts_with("IfcRel");
      if (!is_shared) {
        write_instance(element);
      } else {
        shared_[element.id] = waiting_.size();
        waiting_.push_back(std::move(element));
      }
      break;
    }
    default: break;
  }
}

void StepWriter::write_header() {
  const auto field = [&](const char* name) { return step_string(header_[name]); };
  stream_ << "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((" << field("documentation") << "),'2;1');\nFILE_NAME("
          << field("name") << "," << field("time_stamp") << ",(" << field("author") << "),(" << field("organization")
          << ")," << field("preprocessor_version") << "," << field("originating_system") << ","
          << field("authorization") << ");\nFILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\n";
}

void StepWriter::write_instance(const Open& element) {
  stream_ << "#" << element.number << "=" << upper(std::string(element.entity->name)) << "(";
  for (std::size_t i = 0; i < element.arguments.size(); ++i) {
    const StepAttribute& attribute = element.entity->attributes[i];
    const std::vector<std::string>& values = element.arguments[i];
    if (i > 0) stream_ << ",";
    if (values.empty()) {
      stream_ << (attribute.presence == StepPresence::derived ? "*" : "$");
    } else if (attribute.type.levels > 0 && values.front().front() != '(') {
      stream_ << list_text(values);
    } else {
      stream_ << values.front();
    }
  }
  stream_ << ");\n";
}

void StepWriter::finish() {
  for (const Open& relationship : waiting_) write_instance(relationship);
  stream_ << "ENDSEC;\nEND-ISO-10303-21;\n";
  stream_.close();
  if (!stream_) throw std::runtime_error("the export could not be written to its end");
}

}  // namespace sample_export
