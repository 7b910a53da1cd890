#include "core/intake/panels/panel_rules.h"

#include <array>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

std::string shown(const Settings::Value& value) {
  if (const auto* text = std::get_if<std::string>(&value)) return "'" + *text + "'";
  if (const auto* number = std::get_if<double>(&value)) return shortest_text(*number);
  return std::get<bool>(value) ? "true" : "false";
}

/// The settings of one rule, by their names; empty when there is no rule of that number.
class RuleSettings {
 public:
  RuleSettings(const Settings& settings, std::size_t number)
      : settings_(settings), prefix_("intake.panels." + std::to_string(number) + ".") {}

  bool is_there() const {
    const auto first = settings_.all().lower_bound(prefix_);
    return first != settings_.all().end() && first->first.compare(0, prefix_.size(), prefix_) == 0;
  }
  std::string text(const char* name) const {
    const auto found = settings_.text(prefix_ + name);
    return found ? found->value : std::string();
  }
  std::optional<Settings::Value> value(const char* name) const {
    const auto found = settings_.all().find(prefix_ + name);
    return found == settings_.all().end() ? std::nullopt : std::optional(found->second);
  }

 private:
  const Settings& settings_;
  std::string prefix_;
};

std::string text_of(const PanelRule& rule, std::size_t number) {
  const std::array named{std::pair{"entity", &rule.entity},
                         std::pair{"type_name", &rule.type_name},
                         std::pair{"classification", &rule.classification},
                         std::pair{"property", &rule.property},
                         std::pair{"storey", &rule.storey},
                         std::pair{"layer_set", &rule.layer_set}};
  std::vector<std::string> conditions;
  for (const auto& [name, value] : named) {
    if (!value->empty()) conditions.push_back(std::string(name) + " '" + *value + "'");
  }
  if (rule.equals) conditions.push_back("equals " + shown(*rule.equals));
  return "rule " + std::to_string(number + 1) + " (" + (rule.includes ? "include" : "exclude") + " " +
         (conditions.empty() ? std::string("all that is left") : joined(conditions, ", ")) + ")";
}

}  // namespace

std::vector<PanelRule> panel_rules(const Settings& settings) {
  std::vector<PanelRule> rules;
  for (std::size_t number = 0;; ++number) {
    const RuleSettings given(settings, number);
    if (!given.is_there()) return rules;
    PanelRule rule;
    rule.includes = given.text("use") != "exclude";
    rule.entity = given.text("entity");
    rule.type_name = given.text("type_name");
    rule.classification = given.text("classification");
    rule.property = given.text("property");
    rule.equals = given.value("equals");
    rule.storey = given.text("storey");
    rule.layer_set = given.text("layer_set");
    rule.text = text_of(rule, number);
    rules.push_back(std::move(rule));
  }
}

}  // namespace panel_dossier
