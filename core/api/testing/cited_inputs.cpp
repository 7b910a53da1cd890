#include "core/api/testing/cited_inputs.h"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <optional>
#include <set>
#include <utility>
#include <variant>

#include "core/api/testing/properties.h"

namespace panel_dossier::testing {

namespace {

/// Whether a setting `…_file` names this file: its rows are settings, not the plugin's data.
bool is_file_of_settings(const std::string& file, const Settings& settings) {
  return std::any_of(settings.all().begin(), settings.all().end(), [&](const auto& setting) {
    const auto* text = std::get_if<std::string>(&setting.second);
    return text != nullptr && *text == file && setting.first.ends_with("_file");
  });
}

std::optional<CitedInput> cited_by(const Origin& origin, const Settings& settings) {
  switch (origin.kind) {
    case OriginKind::export_file:
    case OriginKind::input_table:
      // `Pset.Property`; an attribute of the export and a column of a record have no dot.
      if (origin.property.str().find('.') == std::string::npos) return std::nullopt;
      return CitedInput{CheckInput::Source::property, origin.property};
    case OriginKind::setting: return CitedInput{CheckInput::Source::setting, origin.key};
    case OriginKind::data_table: break;
  }
  const bool is_evidence = origin.table.str().find('/') != std::string::npos;
  if (origin.table.empty() || is_evidence || is_file_of_settings(origin.table, settings)) return std::nullopt;
  return CitedInput{CheckInput::Source::table, origin.table};
}

/// The spoilt number or text, or none where the spoiling is of the other kind or changes nothing.
template <typename Values>
std::optional<Values> spoilt(const Values& value, Spoiling how) {
  if (how == Spoiling::unknown_word) {
    const auto* text = std::get_if<std::string>(&value);
    return text == nullptr ? std::nullopt : std::optional<Values>(std::string(kUnknownWord));
  }
  const double* number = std::get_if<double>(&value);
  if (number == nullptr) return std::nullopt;
  if (how == Spoiling::not_a_number) return std::numeric_limits<double>::quiet_NaN();
  if (*number == 0.0) return std::nullopt;
  constexpr double kThousand = 1000.0;
  return how == Spoiling::opposite_sign ? -*number : kThousand * *number;
}

bool spoil_property(Project& project, const std::string& name, Spoiling how) {
  const std::size_t dot = name.find('.');
  const std::string set = name.substr(0, dot);
  const std::string own_name = name.substr(dot + 1);
  bool changed = false;
  for_each_properties(project, [&](Properties& properties) {
    const Property* present = properties.find(set, own_name);
    if (present == nullptr) return;
    Property property = *present;
    const auto value = spoilt(property.value, how);
    if (!value) return;
    property.value = *value;
    replace(properties, set, own_name, std::move(property));
    changed = true;
  });
  return changed;
}

}  // namespace

void for_each_properties(Project& project, const std::function<void(Properties&)>& visit) {
  visit(project.properties);
  for (Material& material : project.materials) visit(material.properties);
  for (Panel& panel : project.panels) {
    visit(panel.properties);
    for (Layer& layer : panel.layers) visit(layer.properties);
    for (Part& part : panel.parts) visit(part.properties);
    for (Opening& opening : panel.openings) visit(opening.filling_properties);
  }
}

std::vector<CitedInput> cited_inputs(const Finding& finding, const Settings& settings) {
  std::set<CitedInput> cited;
  for (const Input& input : finding.inputs) {
    if (const auto one = cited_by(input.origin, settings)) cited.insert(*one);
  }
  return {cited.begin(), cited.end()};
}

CitedInput whole_input(const CitedInput& input) {
  CitedInput whole = input;
  if (input.source != CheckInput::Source::setting) return whole;
  for (std::size_t dot = whole.name.rfind('.'); dot != std::string::npos; dot = whole.name.rfind('.')) {
    if (whole.name.find_first_not_of("0123456789", dot + 1) != std::string::npos) break;
    whole.name.resize(dot);
  }
  return whole;
}

void remove_input(ProjectAndSettings& from, const CitedInput& input) {
  if (input.source == CheckInput::Source::property) {
    for_each_properties(from.project, [&](Properties& properties) { remove(properties, input.name); });
  }
  if (input.source != CheckInput::Source::setting) return;
  Settings kept;
  for (const auto& [key, value] : from.settings.all()) {
    if (key != input.name && !key.starts_with(input.name + ".")) kept.set(key, value);
  }
  from.settings = std::move(kept);
}

bool spoil_input(ProjectAndSettings& from, const CitedInput& input, Spoiling how) {
  if (input.source == CheckInput::Source::property) return spoil_property(from.project, input.name, how);
  const auto found = from.settings.all().find(input.name);
  if (input.source != CheckInput::Source::setting || found == from.settings.all().end()) return false;
  const auto value = spoilt(found->second, how);
  if (value) from.settings.set(input.name, *value);
  return value.has_value();
}

}  // namespace panel_dossier::testing
