#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/cut_parts.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/takeoff/project_total.h"

namespace panel_dossier::quantities {

const CheckDeclaration kTakeOffCheck{
    .id = "quantities.take_off",
    .title = "Materials by net and gross measure",
    .project_title = "Materials of all panels by net and gross measure",
    .sentence =
        "The volume of the materials is the sum of the net volumes of the parts; each material is measured by "
        "length or area, net as its parts are and gross with the openings up to a limit left in; the project's "
        "is the sum of its panels.",
    .clause = "Net as the parts are; gross with small openings left in (common practice)",
    .other_clauses = {kSumOverPanels},
    .units = {"m³"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model({optional_setting("quantities.opening_deduction_over_m2")}),
    .limits = {"Waste, laps and offcuts: see quantities.stock_yield and quantities.sheet_yield.",
               "Fasteners, tapes and what the factory fits into openings.",
               "Whether an opening goes through a layer: the gross measure leaves it in for each layer of sheets, "
               "membranes and cladding."},
    .role = {}};

namespace {

/// A line of the take-off.
struct LineKey {
  MaterialKey material;
  std::string what;
  std::string unit;  ///< of the measure

  bool operator<(const LineKey& other) const {
    return std::tie(material, what, unit) < std::tie(other.material, other.what, other.unit);
  }
};

struct Line {
  ExactSum net;
  ExactSum gross;
  ExactSum volume_m3;
  std::set<Micrometres> layers;  ///< inner faces of the layers the line's parts lie in
};

/// Sheets, membranes and cladding are measured over the face; insulation only where it lies.
bool is_measured_over_openings(PartKind kind) {
  return kind == PartKind::sheet || kind == PartKind::membrane || kind == PartKind::cladding;
}

LineKey key_of(const CutPart& cut, const Part& part, const Project& project) {
  const MaterialKey material = material_key(project, part.material);
  if (is_framing(part.kind)) return {material, "framing " + section_name(cut.thickness, cut.width), "m"};
  return {material, std::string(to_string(part.kind)) + " " + millimetres_text(cut.thickness), "m²"};
}

void add_part(const CutPart& cut, const Part& part, const Project& project, std::map<LineKey, Line>& lines) {
  Line& line = lines[key_of(cut, part, project)];
  const double measure = net_measure(cut, part);
  line.net.add(measure);
  line.gross.add(measure);
  line.volume_m3.add(net_volume_m3(cut, part));
  if (is_measured_over_openings(part.kind) && part.bounds) line.layers.insert(micrometres(part.bounds->min.y));
}

/// Area of the openings that the gross measure leaves in: up to the limit, or all without one.
double openings_left_in_m2(const Panel& panel, const std::optional<double>& limit_m2) {
  ExactSum sum;
  for (const Opening& opening : panel.openings) {
    if (!limit_m2 || opening.area_m2() <= *limit_m2) sum.add(opening.area_m2());
  }
  return sum.total();
}

std::optional<Sourced<double>> deduction_limit(const Settings& settings) {
  return settings.number("quantities.opening_deduction_over_m2");
}

/// Net and gross measure, volume in m³.
Rows<LineKey> measures_of(const Panel& panel, const Project& project, const CutParts& cut, double openings_m2) {
  std::map<LineKey, Line> lines;
  for (const CutPart& piece : cut.parts) add_part(piece, panel.parts[piece.part], project, lines);
  Rows<LineKey> rows;
  for (auto& [key, line] : lines) {
    for (std::size_t layer = 0; layer < line.layers.size(); ++layer) line.gross.add(openings_m2);
    rows[key] = {line.net.total(), line.gross.total(), line.volume_m3.total()};
  }
  return rows;
}

/// Measures of a panel that has been assessed already.
Rows<LineKey> measures_again(const Panel& panel, const Project& project, const Settings& settings) {
  const auto limit = deduction_limit(settings);
  const double openings_m2 = openings_left_in_m2(panel, limit ? std::optional(limit->value) : std::nullopt);
  return measures_of(panel, project, cut_parts(panel), openings_m2);
}

std::vector<Column> measure_columns() {
  return {{"material", ""}, {"what", "mm"}, {"unit", ""}, {"net", ""}, {"gross", ""}, {"volume", "m³"}};
}

std::vector<Value> measure_row(const Project& project, const LineKey& key, const std::vector<double>& numbers) {
  return {printed_name(project, key.material), key.what, key.unit, numbers[0], numbers[1], numbers[2]};
}

Table measure_table(const Project& project, const Rows<LineKey>& rows) {
  Table table{"Measures by material", measure_columns(), {}};
  for (const auto& [key, numbers] : rows) table.rows.push_back(measure_row(project, key, numbers));
  return table;
}

/// By the storey's place in the project; those of panels without storey come last.
using StoreyMeasures = std::map<std::size_t, RowSums<LineKey>>;

Table storey_measure_table(const Project& project, const StoreyMeasures& storeys) {
  Table table{"Measures by storey and material", measure_columns(), {}};
  table.columns.insert(table.columns.begin(), {"storey", ""});
  for (const auto& [storey, sums] : storeys) {
    for (const auto& [key, numbers] : totals_of(sums)) {
      std::vector<Value> row = measure_row(project, key, numbers);
      row.insert(row.begin(), storey_name(project, storey));
      table.rows.push_back(std::move(row));
    }
  }
  return table;
}

}  // namespace

Finding take_off_measures(const Panel& panel, const Project& project, const Settings& settings) {
  FindingBuilder finding(kTakeOffCheck, panel.global_id);
  finding.decimals(3);
  const CutParts cut = cut_parts(panel);
  for (const std::string& what : cut.missing) finding.missing(what);
  if (cut.parts.empty() && cut.missing.empty()) finding.missing("the export gives no parts to measure in this panel");
  std::optional<double> limit_m2;
  if (const auto setting = deduction_limit(settings)) {
    limit_m2 = finding.number("opening area up to which none is deducted", "A_lim", "m²", setting, "");
    if (limit_m2 && *limit_m2 < 0.0) {
      finding.missing("setting 'quantities.opening_deduction_over_m2' must not be negative");
    }
  }
  if (finding.incomplete()) return finding.not_assessed();

  const double openings_m2 = openings_left_in_m2(panel, limit_m2);
  const Rows<LineKey> rows = measures_of(panel, project, cut, openings_m2);
  ExactSum volume;
  for (const auto& [key, numbers] : rows) volume.add(numbers.back());
  finding.step("openings left in by the gross measure of each layer", "A_in", openings_m2, "m²");
  finding.table(measure_table(project, rows));
  return finding.inform(volume.total(), "m³");
}

Finding project_take_off(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings) {
  StoreyMeasures storeys;
  Finding total = project_total({kTakeOffCheck, "m³", 2}, project, panels, [&] {
    RowSums<LineKey> whole;
    for (const PanelFindings& panel : panels) {
      const Rows<LineKey> rows = measures_again(*panel.panel, project, settings);
      add_rows(whole, rows);
      add_rows(storeys[panel.panel->storey.value_or(project.storeys.size())], rows);
    }
    return measure_table(project, totals_of(whole));
  });
  if (!storeys.empty()) total.tables.push_back(storey_measure_table(project, storeys));
  return total;
}

}  // namespace panel_dossier::quantities
