#include "core/intake/graph/expected_measures.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kQuantityPrefix = "IfcQuantity";  // its entity fixes the measure already

}  // namespace

ExpectedMeasures::ExpectedMeasures(const std::vector<PropertyListText>& lists, Reporter& report) {
  for (const PropertyRow& row : read_property_lists(lists, report)) {
    if (row.measure.starts_with(kQuantityPrefix)) continue;
    const Measure* measure = find_measure(row.measure);
    if (measure == nullptr) {
      report.file_error(0, 0, "'" + row.place + "' names '" + row.measure + "', which is no measure",
                        "write a measure type that the schema of property sets names");
      continue;
    }
    const bool plain = measure->kind == MeasureKind::pure_number;
    rows_[{row.set, row.property}] = {measure, plain ? row.unit : std::string()};
  }
}

std::optional<std::string> ExpectedMeasures::breach(const std::string& set, const std::string& property,
                                                    const Measure& found) const {
  const auto row = rows_.find({set, property});
  if (row == rows_.end()) return std::nullopt;
  const auto& [measure, unit] = row->second;
  if (measure->kind == found.kind && measure->symbol == found.symbol) return std::nullopt;
  // A quantity carries its unit along, so it may stand for a plain number in that unit.
  if (found.kind == MeasureKind::quantity && !unit.empty() && unit == found.symbol) return std::nullopt;
  return std::string(measure->type) + (unit.empty() ? "" : " in " + unit);
}

}  // namespace panel_dossier
