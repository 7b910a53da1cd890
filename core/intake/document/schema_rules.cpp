#include "core/intake/document/schema_rules.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstring>
#include <map>
#include <optional>
#include <pugixml.hpp>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

bool is_ascii_digit(char c) {
  return c >= '0' && c <= '9';
}

bool is_ascii_letter(char c) {
  return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

std::size_t digits_at(std::string_view text, std::size_t at) {
  const std::size_t from = at;
  while (at < text.size() && is_ascii_digit(text[at])) ++at;
  return at - from;
}

bool is_number_form(std::string_view text) {
  std::size_t at = !text.empty() && (text[0] == '-' || text[0] == '+') ? 1 : 0;
  const std::size_t whole = digits_at(text, at);
  at += whole;
  std::size_t fraction = 0;
  if (at < text.size() && text[at] == '.') {
    fraction = digits_at(text, ++at);
    at += fraction;
  }
  if (whole + fraction == 0) return false;
  if (at == text.size()) return true;
  if (text[at] != 'e' && text[at] != 'E') return false;
  ++at;
  if (at < text.size() && (text[at] == '-' || text[at] == '+')) ++at;
  const std::size_t exponent = digits_at(text, at);
  return exponent != 0 && at + exponent == text.size();
}

bool is_numbers_form(std::string_view text) {
  if (text.empty()) return false;
  while (!text.empty()) {
    const std::size_t blank = text.find(' ');
    if (!is_number_form(text.substr(0, blank))) return false;
    text = blank == std::string_view::npos ? std::string_view() : text.substr(blank + 1);
  }
  return true;
}

bool is_integer_form(std::string_view text) {
  if (!text.empty() && text.front() == '-') text.remove_prefix(1);
  return !text.empty() && digits_at(text, 0) == text.size();
}

bool is_enumerator_form(std::string_view text) {
  return !text.empty() && is_ascii_letter(text.front()) && std::all_of(text.begin(), text.end(), [](char c) {
    return is_ascii_letter(c) || is_ascii_digit(c) || c == '_';
  });
}

bool is_logical_form(std::string_view text) {
  return text == "true" || text == "false" || text == "unknown" || text == "TRUE" || text == "FALSE" ||
         text == "UNKNOWN";
}

bool is_global_id_form(std::string_view text) {
  constexpr std::size_t kGlobalIdLength = 22;
  return text.size() == kGlobalIdLength && text.front() >= '0' && text.front() <= '3' &&
         std::all_of(text.begin(), text.end(),
                     [](char c) { return is_ascii_letter(c) || is_ascii_digit(c) || c == '_' || c == '$'; });
}

}  // namespace

bool surely_has_form(std::string_view text, ValueForm form) {
  switch (form) {
    case ValueForm::any: return true;
    case ValueForm::number: return is_number_form(text);
    case ValueForm::numbers: return is_numbers_form(text);
    case ValueForm::integer: return is_integer_form(text);
    case ValueForm::enumerator: return is_enumerator_form(text);
    case ValueForm::logical: return is_logical_form(text);
    case ValueForm::global_id: return is_global_id_form(text);
  }
  return false;
}

namespace {

struct PatternForm {
  const char* pattern;
  ValueForm form;
};

// A pattern of the schema that is none of these is not known here, and the full check has to look at every file.
constexpr std::array kPatternForms{
    PatternForm{R"([\-+]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][\-+]?[0-9]+)?)", ValueForm::number},
    PatternForm{R"([A-Za-z][A-Za-z0-9_]*)", ValueForm::enumerator},
    PatternForm{R"([Tt][Rr][Uu][Ee]|[Ff][Aa][Ll][Ss][Ee]|[Uu][Nn][Kk][Nn][Oo][Ww][Nn]|[TtFfUu]|0|1)",
                ValueForm::logical},
    PatternForm{R"([0-3][0-9A-Za-z_$]{21})", ValueForm::global_id},
};

constexpr int kDeepestExtension = 8;

/// Reads the few constructs that the schemas use.
class RuleReader {
 public:
  explicit RuleReader(pugi::xml_node schema) : schema_(schema) {}

  bool read(SchemaRules& rules) {
    if (!read_simple_types()) return false;
    for (const pugi::xml_node& type : schema_.children("xs:complexType"))
      complex_[type.attribute("name").value()] = type;
    for (const pugi::xml_node& child : schema_.children()) {
      const std::string_view kind = child.name();
      if (child.type() != pugi::node_element || kind == "xs:simpleType" || kind == "xs:complexType") continue;
      SchemaRules::Element element;
      if (kind != "xs:element" || !read_element(child, element)) return false;
      found_.emplace_back(child.attribute("name").value(), std::move(element));
    }
    rules.names.reserve(found_.size());
    for (auto& [name, element] : found_) {
      rules.names.push_back(name);
      rules.elements.emplace(rules.names.back(), std::move(element));
    }
    return true;
  }

 private:
  pugi::xml_node schema_;
  std::map<std::string, ValueForm, std::less<>> simple_{{"xs:string", ValueForm::any},
                                                        {"xs:integer", ValueForm::integer}};
  std::map<std::string, pugi::xml_node, std::less<>> complex_;
  std::vector<std::pair<std::string, SchemaRules::Element>> found_;

  bool read_simple_types() {
    for (const pugi::xml_node& type : schema_.children("xs:simpleType")) {
      const auto form = form_of_simple(type);
      if (!form) return false;
      simple_[type.attribute("name").value()] = *form;
    }
    return true;
  }

  std::optional<ValueForm> form_of_simple(pugi::xml_node type) const {
    if (const pugi::xml_node list = type.child("xs:list")) {
      const auto item = simple_.find(list.attribute("itemType").value());
      const bool is_numbers = item != simple_.end() && item->second == ValueForm::number;
      return is_numbers ? std::optional(ValueForm::numbers) : std::nullopt;
    }
    const std::string_view pattern = type.child("xs:restriction").child("xs:pattern").attribute("value").value();
    const auto known = std::find_if(kPatternForms.begin(), kPatternForms.end(),
                                    [&](const PatternForm& form) { return pattern == form.pattern; });
    return known == kPatternForms.end() ? std::nullopt : std::optional(known->form);
  }

  bool read_element(pugi::xml_node node, SchemaRules::Element& element) const {
    if (const pugi::xml_attribute type = node.attribute("type")) return add_type(type.value(), element, 0);
    const pugi::xml_node type = node.child("xs:complexType");
    return type && add_complex(type, element, 0);
  }

  bool add_type(std::string_view name, SchemaRules::Element& element, int depth) const {
    if (const auto form = simple_.find(name); form != simple_.end()) {
      element.holds_value = true;
      element.content = form->second;
      return true;
    }
    const auto type = complex_.find(name);
    return type != complex_.end() && depth < kDeepestExtension && add_complex(type->second, element, depth + 1);
  }

  bool add_complex(pugi::xml_node type, SchemaRules::Element& element, int depth) const {
    for (const pugi::xml_node& child : type.children()) {
      const std::string_view kind = child.name();
      if (kind == "xs:complexContent" || kind == "xs:simpleContent") {
        const pugi::xml_node extension = child.child("xs:extension");
        if (!extension || !add_type(extension.attribute("base").value(), element, depth)) return false;
        if (!add_attributes(extension, element)) return false;
      } else if (kind == "xs:sequence") {
        if (!is_anything(child)) return false;
      } else if (kind != "xs:anyAttribute" && child.type() == pugi::node_element) {
        return false;
      }
    }
    return true;
  }

  static bool is_anything(pugi::xml_node sequence) {
    const pugi::xml_node any = sequence.child("xs:any");
    return any && !any.next_sibling() && std::strcmp(any.attribute("processContents").value(), "lax") == 0 &&
           std::strcmp(any.attribute("minOccurs").value(), "0") == 0 &&
           std::strcmp(any.attribute("maxOccurs").value(), "unbounded") == 0;
  }

  bool add_attributes(pugi::xml_node extension, SchemaRules::Element& element) const {
    for (const pugi::xml_node& child : extension.children()) {
      const std::string_view kind = child.name();
      if (kind == "xs:anyAttribute") continue;
      const auto form = simple_.find(child.attribute("type").value());
      if (kind != "xs:attribute" || form == simple_.end()) return false;
      element.attributes.push_back({child.attribute("name").value(), form->second,
                                    std::strcmp(child.attribute("use").value(), "required") == 0});
    }
    return true;
  }
};

}  // namespace

SchemaRules::SchemaRules(const std::filesystem::path& xsd) {
  pugi::xml_document document;
  if (!document.load_file(xsd.c_str())) return;
  is_complete = RuleReader(document.child("xs:schema")).read(*this);
}

}  // namespace panel_dossier
