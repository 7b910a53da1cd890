#include "core/trace/write_back/standard_results.h"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/graph/property_reader.h"

namespace panel_dossier {

namespace {

/// Of a quantity the type of its number.
std::string value_type(const StandardProperty& property) {
  const QuantityForm* quantity = find_quantity(property.type);
  return quantity != nullptr ? std::string(quantity->measure) : property.type;
}

/// Of what is open nobody may read a figure as a result.
bool may_be_written(Verdict verdict) {
  return verdict == Verdict::pass || verdict == Verdict::information;
}

bool has_fillings(const Panel& panel) {
  return std::any_of(panel.openings.begin(), panel.openings.end(),
                     [](const Opening& opening) { return !opening.filling_entity.empty(); });
}

bool is_stated(const Panel& panel, const StandardProperty& property) {
  // IFC2X3 has named the quantity sets of all elements alike.
  for (const std::string& set : {property.set, std::string("BaseQuantities")}) {
    const std::string name = set + "." + property.property;
    if (panel.properties.all().contains(name) || panel.properties.withheld().contains(name)) return true;
  }
  return false;
}

/// A finding's value as the property; none when it is not of the property's kind.
std::optional<ResultProperty> as_property(const Value& value, const std::string& unit_of_value, const WrittenBack& row,
                                          const StandardProperty& property, const StandingSets& standing) {
  const std::string type = value_type(property);
  const bool is_text = find_measure(type)->kind == MeasureKind::text;
  ResultProperty result{property.property, std::string(kWrittenBackMark), {}, property.type};
  if (const double* number = std::get_if<double>(&value); number != nullptr && !is_text) {
    const auto unit = standing.si_of_one.find(type);
    if (unit_of_value != property.unit || unit == standing.si_of_one.end()) return std::nullopt;
    result.value = *number / unit->second;
    result.description += with_unit(*number, property.unit) + ", ";
  } else if (const std::string* text = std::get_if<std::string>(&value); text != nullptr && is_text) {
    result.value = *text;
  } else {
    return std::nullopt;
  }
  result.description += row.meaning;
  return result;
}

/// The set of the panel's results to which a property of that set belongs.
StandardResults& set_of(PanelResults& results, const std::string& set, const std::string& standing) {
  const auto found = std::find_if(results.standard.begin(), results.standard.end(),
                                  [&](const StandardResults& one) { return one.set == set; });
  if (found != results.standard.end()) return *found;
  results.standard.push_back({set, standing, {}});
  return results.standard.back();
}

/// Where a property can be written.
struct Place {
  bool is_stated = false;
  bool is_shared = false;  ///< by other objects, so that nothing can be added
  std::string standing;    ///< GlobalId of the set; empty when the panel has none of that name
};

Place place_for(const StandardProperty& property, const std::string& panel, const StandingSets& standing) {
  Place place;
  const auto sets = standing.of_panels.find(panel);
  if (sets == standing.of_panels.end()) return place;
  for (const StandingSet& set : sets->second) {
    if (set.name != property.set) continue;
    place.is_stated = place.is_stated || set.properties.contains(property.property);
    const bool is_usable = !set.is_shared && !set.global_id.empty();
    place.is_shared = place.is_shared || !is_usable;
    if (is_usable) place.standing = set.global_id;
  }
  place.is_shared = place.is_shared && place.standing.empty();
  return place;
}

}  // namespace

std::set<std::string> types_of(const std::vector<WrittenBack>& rows, const StandardSets& standard) {
  std::set<std::string> types;
  for (const WrittenBack& row : rows) {
    if (const StandardProperty* property = standard.find(row.set, row.property)) types.insert(value_type(*property));
  }
  return types;
}

StandardOutcome add_standard_results(std::vector<PanelResults>& results, const ResultsDocument& document,
                                     const Project& project, const std::vector<WrittenBack>& rows,
                                     const StandardSets& standard, const StandingSets& standing) {
  StandardOutcome outcome;
  std::map<std::string, const PanelSummary*> summaries;
  for (const PanelSummary& summary : document.panels) summaries[summary.global_id] = &summary;
  std::map<std::string, const Panel*> panels;
  for (const Panel& panel : project.panels) panels[panel.global_id] = &panel;
  for (PanelResults& of_panel : results) {
    const Panel& panel = *panels.at(of_panel.global_id);
    const auto& findings = summaries.at(of_panel.global_id)->findings;
    for (const WrittenBack& row : rows) {
      const StandardProperty* property = standard.find(row.set, row.property);
      if (property == nullptr || !is_for(*property, panel.origin.entity.str())) continue;
      if (row.without_fillings && has_fillings(panel)) continue;
      const auto finding =
          std::find_if(findings.begin(), findings.end(), [&](const auto& one) { return one.check == row.check; });
      if (finding == findings.end() || !may_be_written(finding->verdict)) continue;
      auto written = as_property(finding->value, finding->unit, row, *property, standing);
      if (!written) continue;
      const Place place = place_for(*property, panel.global_id, standing);
      if (place.is_stated || is_stated(panel, *property)) {
        ++outcome.stated;
      } else if (place.is_shared) {
        ++outcome.shared;
      } else {
        set_of(of_panel, row.set, place.standing).properties.push_back(std::move(*written));
        ++outcome.written;
      }
    }
  }
  return outcome;
}

}  // namespace panel_dossier
