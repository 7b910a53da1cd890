#include "core/intake/settings/setting_description.h"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string_view>
#include <utility>

namespace panel_dossier {

namespace {

using nlohmann::ordered_json;

// As deep as a settings file may be nested; also keeps the recursion below off the end of the stack.
constexpr std::size_t kMostLevels = 32;

// A word that is not read here would be a rule that nobody keeps, so it is refused. The second row only informs.
constexpr std::array<std::string_view, 24> kWords{"type",
                                                  "properties",
                                                  "additionalProperties",
                                                  "required",
                                                  "items",
                                                  "minItems",
                                                  "maxItems",
                                                  "minimum",
                                                  "exclusiveMinimum",
                                                  "maximum",
                                                  "exclusiveMaximum",
                                                  "usual",
                                                  "minLength",
                                                  "pattern",
                                                  "format",
                                                  "enum",
                                                  "unique",
                                                  "rows_of",
                                                  "row_word",  //
                                                  "$schema",
                                                  "title",
                                                  "description",
                                                  "default",
                                                  "examples"};

[[noreturn]] void refuse(const std::string& key, const std::string& what) {
  throw std::runtime_error((key.empty() ? "the schema " : "'" + key + "' ") + what);
}

std::string below(const std::string& key, const std::string& name) {
  return key.empty() ? name : key + "." + name;
}

const ordered_json* word(const ordered_json& schema, const char* name) {
  const auto found = schema.find(name);
  return found == schema.end() ? nullptr : &*found;
}

std::string text_word(const ordered_json& schema, const char* name, const std::string& key) {
  const ordered_json* found = word(schema, name);
  if (found == nullptr) return {};
  if (!found->is_string()) refuse(key, std::string("has a '") + name + "' that is no text");
  return found->get<std::string>();
}

std::optional<double> number_word(const ordered_json& schema, const char* name, const std::string& key) {
  const ordered_json* found = word(schema, name);
  if (found == nullptr) return std::nullopt;
  if (!found->is_number()) refuse(key, std::string("has a '") + name + "' that is no number");
  return found->get<double>();
}

std::optional<std::size_t> count_word(const ordered_json& schema, const char* name, const std::string& key) {
  const ordered_json* found = word(schema, name);
  if (found == nullptr) return std::nullopt;
  if (!found->is_number_unsigned()) refuse(key, std::string("has a '") + name + "' that is no whole number");
  return found->get<std::size_t>();
}

std::optional<ValueRange> range_word(const ordered_json& schema, const char* name, const std::string& key) {
  const ordered_json* found = word(schema, name);
  if (found == nullptr) return std::nullopt;
  const bool is_range = found->is_array() && found->size() == 2 && (*found)[0].is_number() && (*found)[1].is_number() &&
                        (*found)[0].get<double>() <= (*found)[1].get<double>();
  if (!is_range) refuse(key, std::string("has a '") + name + "' that is no range as [0.1, 2]");
  return ValueRange{(*found)[0].get<double>(), (*found)[1].get<double>()};
}

std::vector<std::string> text_list_word(const ordered_json& schema, const char* name, const std::string& key) {
  std::vector<std::string> texts;
  const ordered_json* found = word(schema, name);
  if (found == nullptr) return texts;
  const bool is_list = found->is_array() &&
                       std::all_of(found->begin(), found->end(), [](const ordered_json& e) { return e.is_string(); });
  if (!is_list) refuse(key, std::string("has a '") + name + "' that is no list of texts");
  for (const ordered_json& text : *found) texts.push_back(text.get<std::string>());
  return texts;
}

std::vector<Settings::Value> choices_word(const ordered_json& schema, const std::string& key) {
  std::vector<Settings::Value> choices;
  const ordered_json* found = word(schema, "enum");
  if (found == nullptr) return choices;
  if (!found->is_array() || found->empty()) refuse(key, "has an 'enum' that is no list of values");
  for (const ordered_json& choice : *found) {
    if (choice.is_string()) {
      choices.emplace_back(choice.get<std::string>());
    } else if (choice.is_number()) {
      choices.emplace_back(choice.get<double>());
    } else {
      refuse(key, "has an 'enum' with a value that is neither text nor number");
    }
  }
  return choices;
}

std::optional<std::regex> pattern_word(const ordered_json& schema, const std::string& key) {
  const std::string pattern = text_word(schema, "pattern", key);
  if (pattern.empty()) return std::nullopt;
  try {
    return std::regex(pattern, std::regex::ECMAScript);
  } catch (const std::regex_error&) {
    refuse(key, "has a 'pattern' that is no regular expression");
  }
}

ValueKind kind_of(const std::string& type, const std::string& key) {
  if (type.empty() || type == "array" || type == "object") return ValueKind::any;
  if (type == "string") return ValueKind::text;
  if (type == "number") return ValueKind::number;
  if (type == "integer") return ValueKind::whole_number;
  if (type == "boolean") return ValueKind::logical;
  refuse(key, "has the type '" + type + "'; use string, number, integer, boolean, array or object");
}

ValueRule read_rule(const ordered_json& schema, const std::string& key) {
  ValueRule rule;
  rule.kind = kind_of(text_word(schema, "type", key), key);
  rule.choices = choices_word(schema, key);
  rule.at_least = number_word(schema, "minimum", key);
  rule.above = number_word(schema, "exclusiveMinimum", key);
  rule.at_most = number_word(schema, "maximum", key);
  rule.below = number_word(schema, "exclusiveMaximum", key);
  rule.usual = range_word(schema, "usual", key);
  rule.least_length = count_word(schema, "minLength", key).value_or(0);
  rule.pattern = pattern_word(schema, key);
  const std::string format = text_word(schema, "format", key);
  if (!format.empty() && format != "date") refuse(key, "has the format '" + format + "'; only 'date' is known");
  rule.is_date = format == "date";
  rule.description = text_word(schema, "description", key);
  return rule;
}

void refuse_unknown_words(const ordered_json& schema, const std::string& key) {
  for (const auto& [name, value] : schema.items()) {
    if (std::find(kWords.begin(), kWords.end(), name) == kWords.end()) {
      refuse(key, "has the word '" + name + "', which the settings do not understand");
    }
  }
}

SettingDescription read(const ordered_json& schema, const std::string& key, std::size_t level);

void read_properties(const ordered_json& properties, const std::string& key, std::size_t level,
                     SettingDescription& group) {
  if (!properties.is_object()) refuse(key, "has 'properties' that are no object");
  for (const auto& [name, schema] : properties.items()) {
    const std::string full = below(key, name);
    if (name.empty() || name.find('.') != std::string::npos) refuse(full, "has an empty name or a dot in its name");
    SettingDescription property = read(schema, full, level + 1);
    if (property.rule.description.empty()) refuse(full, "has no 'description'");
    property.name = name;
    group.properties.push_back(std::move(property));
  }
}

void read_group(const ordered_json& schema, const std::string& key, std::size_t level, SettingDescription& group) {
  if (const ordered_json* properties = word(schema, "properties")) read_properties(*properties, key, level, group);
  group.required = text_list_word(schema, "required", key);
  for (const std::string& name : group.required) {
    if (group.property(name) == nullptr) refuse(key, "requires '" + name + "', which it does not describe");
  }
  const ordered_json* others = word(schema, "additionalProperties");
  group.takes_other_keys = others == nullptr || !others->is_boolean() || others->get<bool>();
  if (others != nullptr && !others->is_boolean()) {
    group.other_keys = std::make_shared<SettingDescription>(read(*others, key + ".*", level + 1));
  }
}

void read_list(const ordered_json& schema, const std::string& key, std::size_t level, SettingDescription& list) {
  if (const ordered_json* items = word(schema, "items")) {
    list.elements = std::make_shared<SettingDescription>(read(*items, key + ".*", level + 1));
  }
  list.least_elements = count_word(schema, "minItems", key);
  list.most_elements = count_word(schema, "maxItems", key);
  list.unique = text_word(schema, "unique", key);
  const bool is_described = list.unique.empty() || (list.elements && list.elements->property(list.unique) != nullptr);
  if (!is_described) refuse(key, "has 'unique' '" + list.unique + "', which its elements do not describe");
}

/// The rows of a file become elements of the list beside the setting, so the list must say what columns they have.
void check_table(const SettingDescription& group, const SettingDescription& file, const std::string& key) {
  const std::string full = below(key, file.name);
  if (file.rule.kind != ValueKind::text) refuse(full, "has 'rows_of' but is no text");
  if (file.name != file.rows_of + "_file") refuse(full, "must be named '" + file.rows_of + "_file'");
  if (file.row_word.empty()) refuse(full, "has no 'row_word': what a row of its file is");
  const SettingDescription* list = group.property(file.rows_of);
  const bool has_rows = list != nullptr && list->elements && !list->elements->properties.empty();
  if (!has_rows) refuse(full, "needs the list '" + file.rows_of + "' beside it, whose 'items' describe the columns");
  const std::string rows = below(key, file.rows_of) + ".*";
  const SettingDescription* line = list->elements->property("line");
  if (line == nullptr || line->rule.kind != ValueKind::number) {
    refuse(rows, "has no number 'line', in which the program keeps the line of the file");
  }
  if (list->elements->properties.size() == 1) refuse(rows, "has no columns beside 'line'");
  for (const SettingDescription& cell : list->elements->properties) {
    if (cell.form != SettingDescription::Form::value) {
      refuse(below(rows, cell.name), "is no single value, so it cannot be a column of a file");
    }
  }
}

SettingDescription read(const ordered_json& schema, const std::string& key, std::size_t level) {
  if (!schema.is_object()) refuse(key, "is not described by an object");
  if (level > kMostLevels) refuse(key, "is nested more than " + std::to_string(kMostLevels) + " deep");
  refuse_unknown_words(schema, key);
  SettingDescription description;
  description.rule = read_rule(schema, key);
  const std::string type = text_word(schema, "type", key);
  if (type == "object") {
    description.form = SettingDescription::Form::group;
    read_group(schema, key, level, description);
  } else if (type == "array") {
    description.form = SettingDescription::Form::list;
    read_list(schema, key, level, description);
  }
  description.rows_of = text_word(schema, "rows_of", key);
  description.row_word = text_word(schema, "row_word", key);
  for (const SettingDescription& property : description.properties) {
    if (!property.rows_of.empty()) check_table(description, property, key);
  }
  return description;
}

}  // namespace

const SettingDescription* SettingDescription::property(const std::string& wanted) const {
  const auto found = std::find_if(properties.begin(), properties.end(),
                                  [&](const SettingDescription& property) { return property.name == wanted; });
  return found == properties.end() ? nullptr : &*found;
}

SettingDescription read_setting_description(const std::string& schema) {
  const ordered_json parsed = ordered_json::parse(schema, nullptr, false);
  if (parsed.is_discarded()) refuse({}, "is not valid JSON");
  SettingDescription description = read(parsed, {}, 0);
  if (description.form != SettingDescription::Form::group || !parsed.contains("properties")) {
    refuse({}, "describes no object with 'properties'");
  }
  if (description.rule.description.empty()) refuse({}, "has no 'description'");
  return description;
}

}  // namespace panel_dossier
