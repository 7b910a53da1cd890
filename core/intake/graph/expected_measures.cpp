#include "core/intake/graph/expected_measures.h"

#include <fstream>
#include <utility>

#include "core/intake/settings/csv_line.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kQuantityPrefix = "IfcQuantity";  // its entity fixes the measure already
constexpr std::size_t kFields = 6;
constexpr const char* kAdvice = "reinstall the program with its schemas";

}  // namespace

ExpectedMeasures::ExpectedMeasures(const std::filesystem::path& file, Reporter& report) {
  std::ifstream stream(file);
  if (!stream) report.file_error(0, 0, "the list of property sets '" + file.string() + "' cannot be read", kAdvice);
  bool header = true;
  std::size_t number = 0;
  for (std::string line; std::getline(stream, line);) {
    ++number;
    if (line.empty() || line.front() == '#' || std::exchange(header, false)) continue;
    add_line(line, file.string() + ":" + std::to_string(number), report);
  }
}

void ExpectedMeasures::add_line(std::string_view line, const std::string& place, Reporter& report) {
  const auto fields = csv_fields(line);
  if (!fields || fields->size() < kFields) {
    report.file_error(0, 0, "'" + place + "' has not the fields set,property,on,measure,unit,meaning", kAdvice);
    return;
  }
  const std::string& type = (*fields)[3];
  if (type.compare(0, kQuantityPrefix.size(), kQuantityPrefix) == 0) return;
  const Measure* measure = find_measure(type);
  if (measure == nullptr) {
    report.file_error(0, 0, "'" + place + "' names '" + type + "', which is no measure", kAdvice);
    return;
  }
  const bool plain = measure->kind == MeasureKind::pure_number;
  rows_[{(*fields)[0], (*fields)[1]}] = {measure, plain ? (*fields)[4] : std::string()};
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
