#include "core/intake/settings/settings_schema.h"

#include <algorithm>
#include <fstream>
#include <functional>
#include <iterator>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/settings/setting_description.h"

namespace panel_dossier {

/// Never changed once made: copies of a schema share it.
struct SettingsSchema::Parts {
  SettingDescription all;                                   ///< the program's groups, then those of plugins
  std::string program;                                      ///< the program's schema as read
  std::vector<std::pair<std::string, std::string>> groups;  ///< id and schema of each plugin's

  bool is_plugin(const std::string& group) const {
    return std::any_of(groups.begin(), groups.end(), [&](const auto& entry) { return entry.first == group; });
  }
};

namespace {

/// The settings as the tree that the file was.
struct SettingNode {
  const Settings::Value* value = nullptr;
  std::map<std::string, SettingNode> children;

  bool is_list() const {
    return !children.empty() && std::all_of(children.begin(), children.end(), [](const auto& child) {
      return child.first.find_first_not_of("0123456789") == std::string::npos;
    });
  }
};

SettingNode tree_of(const Settings& settings) {
  SettingNode root;
  for (const auto& [key, value] : settings.all()) {
    SettingNode* node = &root;
    for (std::size_t start = 0; start <= key.size();) {
      const std::size_t dot = std::min(key.find('.', start), key.size());
      node = &node->children[key.substr(start, dot - start)];
      start = dot + 1;
    }
    node->value = &value;
  }
  return root;
}

/// In the order of the list: `10` comes behind `9`.
std::vector<std::pair<std::string, const SettingNode*>> elements_of(const SettingNode& list) {
  std::vector<std::pair<std::string, const SettingNode*>> elements;
  for (const auto& [index, element] : list.children) elements.emplace_back(index, &element);
  std::stable_sort(elements.begin(), elements.end(),
                   [](const auto& a, const auto& b) { return a.first.size() < b.first.size(); });
  return elements;
}

std::string key_below(const std::string& group, const std::string& name) {
  return group.empty() ? name : group + "." + name;
}

std::string counted_elements(std::size_t count) {
  return std::to_string(count) + (count == 1 ? " element" : " elements");
}

class SchemaCheckOfSettings {
 public:
  SchemaCheckOfSettings(std::string file, std::function<std::string(const std::string&)> where_described)
      : file_(std::move(file)), where_described_(std::move(where_described)) {}

  void check(const SettingNode& node, const SettingDescription& description, const std::string& key) {
    switch (description.form) {
      case SettingDescription::Form::value: return check_value(node, description, key);
      case SettingDescription::Form::list: return check_list(node, description, key);
      case SettingDescription::Form::group: return check_group(node, description, key);
    }
  }

  Diagnostics take() { return std::move(diagnostics_); }

 private:
  std::string file_;
  std::function<std::string(const std::string&)> where_described_;
  Diagnostics diagnostics_;

  void add(Severity severity, const std::string& key, std::string message, std::string advice) {
    diagnostics_.push_back({severity, file_, 0, 0, key, {}, std::move(message), std::move(advice)});
  }

  void error(const std::string& key, std::string message, std::string advice) {
    add(Severity::error, key, std::move(message), std::move(advice));
  }

  void check_value(const SettingNode& node, const SettingDescription& description, const std::string& key) {
    if (!node.children.empty()) {
      error(key, node.is_list() ? "is a list" : "is a group of settings", "write " + description.rule.wanted());
    } else if (auto fault = description.rule.fault_of(*node.value)) {
      error(key, std::move(fault->message), std::move(fault->advice));
    }
  }

  void check_list(const SettingNode& node, const SettingDescription& list, const std::string& key) {
    if (node.value != nullptr || !node.is_list()) {
      const std::string found = node.value != nullptr ? shown_value(*node.value) : "a group of settings";
      return error(key, "is " + found + ", not a list", "write [ … ]: " + list.rule.description);
    }
    const std::size_t count = node.children.size();
    if (list.least_elements && count < *list.least_elements) {
      error(key, "has " + counted_elements(count), "write at least " + counted_elements(*list.least_elements));
    }
    if (list.most_elements && count > *list.most_elements) {
      error(key, "has " + counted_elements(count), "write at most " + counted_elements(*list.most_elements));
    }
    if (!list.elements) return;
    std::set<std::string> texts;
    for (const auto& [index, element] : elements_of(node)) {
      const std::string full = key_below(key, index);
      check(*element, *list.elements, full);
      check_unique(*element, list, full, texts);
    }
  }

  void check_unique(const SettingNode& element, const SettingDescription& list, const std::string& key,
                    std::set<std::string>& texts) {
    const auto found = element.children.find(list.unique);
    if (found == element.children.end() || found->second.value == nullptr) return;
    const std::string* text = std::get_if<std::string>(found->second.value);
    if (text == nullptr || texts.insert(*text).second) return;
    error(key_below(key, list.unique), shown_value(*text) + " is there already", "keep one of them");
  }

  void check_group(const SettingNode& node, const SettingDescription& group, const std::string& key) {
    if (node.value != nullptr || (node.is_list() && !group.takes_other_keys)) {
      const std::string found = node.value != nullptr ? shown_value(*node.value) : "a list";
      return error(key, "is " + found + ", not a group of settings", "write { \"key\": value, … }");
    }
    for (const auto& [name, child] : node.children) {
      const std::string full = key_below(key, name);
      if (const SettingDescription* property = group.property(name)) {
        check(child, *property, full);
      } else if (group.other_keys) {
        check(child, *group.other_keys, full);
      } else if (!group.takes_other_keys) {
        add(Severity::warning, full, "no check reads this setting; it is ignored", where_described_(full));
      }
    }
    for (const std::string& name : group.required) {
      if (node.children.find(name) != node.children.end()) continue;
      error(key, "'" + name + "' is missing", "write " + group.property(name)->rule.wanted());
    }
  }
};

std::vector<std::pair<std::string, double>> numbers_of(const Settings& settings) {
  std::vector<std::pair<std::string, double>> numbers;
  for (const auto& [key, value] : settings.all()) {
    if (const double* number = std::get_if<double>(&value)) numbers.emplace_back(key, *number);
  }
  return numbers;
}

/// What the schema says of a key; null when nothing is.
const SettingDescription* described(const SettingDescription& all, const std::string& key) {
  const SettingDescription* description = &all;
  for (const std::string& segment : split(key, '.')) {
    if (description->form == SettingDescription::Form::list) {
      description = description->elements.get();
    } else if (const SettingDescription* property = description->property(segment)) {
      description = property;
    } else {
      description = description->other_keys.get();
    }
    if (description == nullptr) return nullptr;
  }
  return description;
}

SettingsTable table_of(const SettingDescription& file, const SettingDescription& list, const std::string& name) {
  SettingsTable table;
  table.name = name;
  table.row_word = file.row_word;
  table.description = file.rule.description;
  const auto& required = list.elements->required;
  for (const SettingDescription& column : list.elements->properties) {
    if (column.name == "line") continue;  // the program's own: the line of the file
    if (column.name == list.unique) table.unique_column = table.columns.size();
    const bool is_required = std::find(required.begin(), required.end(), column.name) != required.end();
    table.columns.push_back({column.name, column.rule, is_required});
  }
  return table;
}

void add_tables(const SettingDescription& group, const std::string& key, std::vector<SettingsTable>& tables) {
  for (const SettingDescription& property : group.properties) {
    if (property.form == SettingDescription::Form::group) add_tables(property, key_below(key, property.name), tables);
    if (property.rows_of.empty()) continue;
    tables.push_back(table_of(property, *group.property(property.rows_of), key_below(key, property.rows_of)));
  }
}

}  // namespace

SettingsSchema::SettingsSchema(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  if (!stream) {
    throw std::runtime_error("cannot read '" + file.string() + "'; give the folder of the schemas with --schemas");
  }
  Parts parts;
  parts.program.assign(std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>());
  try {
    parts.all = read_setting_description(parts.program);
  } catch (const std::runtime_error& error) {
    throw std::runtime_error("'" + file.string() + "': " + error.what());
  }
  parts_ = std::make_shared<const Parts>(std::move(parts));
}

void SettingsSchema::check_group(const std::string& text) {
  read_setting_description(text);
}

void SettingsSchema::add_group(const std::string& id, const std::string& text) {
  if (parts_->all.property(id) != nullptr) {
    throw std::runtime_error("the settings have a group '" + id + "' already; give the plugin another id");
  }
  Parts parts = *parts_;
  try {
    SettingDescription group = read_setting_description(text);
    group.name = id;
    parts.all.properties.push_back(std::move(group));
  } catch (const std::runtime_error& error) {
    throw std::runtime_error("settings.schema.json of plugin '" + id + "': " + error.what());
  }
  parts.groups.emplace_back(id, text);
  parts_ = std::make_shared<const Parts>(std::move(parts));
}

Diagnostics SettingsSchema::faults_of(const Settings& settings, const std::string& display_name) const {
  const auto where_described = [this](const std::string& key) -> std::string {
    const std::string group = key.substr(0, key.find('.'));
    if (parts_->is_plugin(group)) return "see settings.schema.json of plugin '" + group + "' for the keys";
    if (parts_->all.property(group) != nullptr) return "see settings.schema.json for the keys";
    return "correct the name, or load the plugin '" + group + "'";
  };
  SchemaCheckOfSettings check(display_name, where_described);
  check.check(tree_of(settings), parts_->all, {});
  return check.take();
}

Diagnostics SettingsSchema::withhold_unusual(Settings& settings, const std::string& display_name,
                                             Confirmations& confirmations) const {
  Diagnostics diagnostics;
  for (const auto& [key, number] : numbers_of(settings)) {
    // Asked in any case: a check of a plugin may be the one that wants the value confirmed.
    if (confirmations.confirm(key, {}, number)) continue;
    const SettingDescription* description = described(parts_->all, key);
    if (description == nullptr || !description->rule.usual || description->rule.usual->holds(number)) continue;
    const std::string what =
        "is " + shortest_text(number) + ", outside of the usual " + to_string(*description->rule.usual, {});
    const std::string advice = "correct it, or confirm it with a reason under `confirmed_values` of the settings";
    settings.withhold(key, joined({"setting ", key, " ", what, "; ", advice}, ""));
    diagnostics.push_back({Severity::warning, display_name, 0, 0, key, {}, what + ", and is not used", advice});
  }
  return diagnostics;
}

std::vector<SettingsTable> SettingsSchema::tables() const {
  std::vector<SettingsTable> tables;
  add_tables(parts_->all, {}, tables);
  return tables;
}

std::string SettingsSchema::text() const {
  auto schema = nlohmann::ordered_json::parse(parts_->program);
  for (const auto& [id, text] : parts_->groups) schema["properties"][id] = nlohmann::ordered_json::parse(text);
  return schema.dump(2) + "\n";
}

}  // namespace panel_dossier
