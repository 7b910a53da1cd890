#include "core/cli/forms/settings_form.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <variant>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

using Form = SettingDescription::Form;

std::string in_quotes(const std::string& text) {
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') quoted += '\\';
    quoted += c;
  }
  return quoted + "\"";
}

std::string choice_text(const Settings::Value& choice) {
  if (const auto* text = std::get_if<std::string>(&choice)) return *text;
  if (const auto* number = std::get_if<double>(&choice)) return shortest_text(*number);
  return std::get<bool>(choice) ? "true" : "false";
}

/// What stands in place of a value that nobody has given; none of them is a value that the reader takes.
std::string placeholder(const ValueRule& rule) {
  if (!rule.choices.empty()) {
    std::vector<std::string> words;
    for (const Settings::Value& choice : rule.choices) words.push_back(choice_text(choice));
    return in_quotes(joined(words, " | "));
  }
  switch (rule.kind) {
    case ValueKind::number:
    case ValueKind::whole_number: return "NUMBER";
    case ValueKind::logical: return "true | false";
    case ValueKind::any:
    case ValueKind::text: break;
  }
  return rule.is_date ? "\"YYYY-MM-DD\"" : "\"…\"";
}

/// `{ "radius_m": NUMBER, "capacity_kg": NUMBER }` of a list's element, or of a group whose keys are free.
std::string one_line(const SettingDescription& description) {
  switch (description.form) {
    case Form::value: return placeholder(description.rule);
    case Form::list: return "[ " + (description.elements ? one_line(*description.elements) : "…") + " ]";
    case Form::group: break;
  }
  std::vector<std::string> entries;
  for (const SettingDescription& property : description.properties) {
    entries.push_back(in_quotes(property.name) + ": " + one_line(property));
  }
  if (description.other_keys) entries.push_back("\"…\": " + one_line(*description.other_keys));
  return "{ " + joined(entries) + " }";
}

class Writer {
 public:
  Writer(const std::vector<KnownSetting>& known, const std::vector<Gap>& gaps, bool needed_only)
      : known_(known), gaps_(gaps), needed_only_(needed_only) {}

  std::string write(const SettingDescription& all) {
    line(0, "{");
    line(1, "// What the export does not say. A line that begins with // is a comment: take the // away and put the");
    line(1,
         "// value in. What is left out leaves the checks that need it `not assessed`; nothing is guessed, and each");
    line(1, "// value is listed in the dossier as an assumption.");
    write_properties(all, "", 1);
    line(0, "}");
    return std::move(text_);
  }

 private:
  const std::vector<KnownSetting>& known_;
  const std::vector<Gap>& gaps_;
  bool needed_only_;
  std::string text_;

  void line(int depth, const std::string& text) {
    text_ += std::string(static_cast<std::size_t>(2 * depth), ' ') + text + "\n";
  }

  const KnownSetting* known(const std::string& key) const {
    const auto found = std::find_if(known_.begin(), known_.end(), [&](const auto& entry) { return entry.key == key; });
    return found == known_.end() ? nullptr : &*found;
  }

  static bool is_below(const std::string& key, const std::string& group) { return key.starts_with(group + "."); }

  /// The disciplines that name the setting, or one below it, as missing.
  std::set<std::string> needed_by(const std::string& key) const {
    std::set<std::string> disciplines;
    for (const Gap& gap : gaps_) {
      if (gap.source != Gap::Source::setting || (gap.name != key && !is_below(gap.name, key))) continue;
      disciplines.insert(gap.disciplines.begin(), gap.disciplines.end());
    }
    return disciplines;
  }

  bool holds_known(const std::string& group) const {
    return std::any_of(known_.begin(), known_.end(), [&](const auto& entry) { return is_below(entry.key, group); });
  }

  bool is_shown(const std::string& key) const {
    return !needed_only_ || known(key) != nullptr || holds_known(key) || !needed_by(key).empty();
  }

  void write_properties(const SettingDescription& group, const std::string& prefix, int depth) {
    for (const SettingDescription& property : group.properties) {
      const std::string key = prefix + property.name;
      if (!is_shown(key)) continue;
      if (property.form == Form::group && !property.properties.empty()) {
        write_group(property, key, depth);
      } else {
        write_value(property, key, depth);
      }
    }
  }

  void write_group(const SettingDescription& group, const std::string& key, int depth) {
    text_ += "\n";
    comment(depth, group.rule.description);
    line(depth, in_quotes(group.name) + ": {");
    write_properties(group, key + ".", depth + 1);
    line(depth, "},");
  }

  void write_value(const SettingDescription& value, const std::string& key, int depth) {
    const std::set<std::string> needed = needed_by(key);
    std::string remark = value.rule.description;
    if (!needed.empty()) remark += " [needed: " + joined({needed.begin(), needed.end()}) + "]";
    comment(depth, remark);
    if (const KnownSetting* given = known(key)) {
      comment(depth, "Filled in, to be confirmed: " + given->because);
      line(depth, in_quotes(value.name) + ": " + given->value + ",");
    } else {
      line(depth, "// " + in_quotes(value.name) + ": " + one_line(value) + ",");
    }
  }

  void comment(int depth, const std::string& remark) {
    if (!remark.empty()) line(depth, "// " + remark);
  }
};

/// The floor of the highest storey that has panels above the lowest storey of the building, in metres.
std::optional<KnownSetting> top_storey_height(const Project& project) {
  const Storey* lowest = nullptr;
  const Storey* top = nullptr;
  for (const Storey& storey : project.storeys) {
    if (!storey.elevation_m) continue;
    if (lowest == nullptr || storey.elevation_m->value < lowest->elevation_m->value) lowest = &storey;
  }
  for (const Panel& panel : project.panels) {
    if (!panel.storey) continue;
    const Storey& storey = project.storeys[*panel.storey];
    if (!storey.elevation_m) continue;
    if (top == nullptr || storey.elevation_m->value > top->elevation_m->value) top = &storey;
  }
  if (lowest == nullptr || top == nullptr) return std::nullopt;
  return KnownSetting{"building.top_storey_height_m",
                      shortest_text(top->elevation_m->value - lowest->elevation_m->value),
                      "storey '" + top->name + "' above storey '" + lowest->name +
                          "'; right where the ground lies at the level of the lowest storey"};
}

}  // namespace

std::vector<KnownSetting> settings_of_export(const Project& project, const std::vector<std::string>& disciplines) {
  std::vector<KnownSetting> known;
  std::vector<std::string> quoted;
  quoted.reserve(disciplines.size());
  for (const std::string& id : disciplines) quoted.push_back(in_quotes(id));
  known.push_back({"plugins.expected", "[" + joined(quoted) + "]", "the disciplines that are installed"});
  if (auto height = top_storey_height(project)) known.push_back(std::move(*height));
  return known;
}

std::string settings_form(const SettingDescription& all, const std::vector<KnownSetting>& known,
                          const std::vector<Gap>& gaps, bool needed_only) {
  return Writer(known, gaps, needed_only).write(all);
}

}  // namespace panel_dossier
