#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/cut_parts.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/takeoff/part_measures.h"

namespace panel_dossier::quantities {

namespace {

/// Material, what of it, unit of measure: a line of the take-off.
using LineKey = std::tuple<std::string, std::string, std::string>;

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
  const std::string material = material_name(project, part);
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

}  // namespace

Finding take_off_measures(const Panel& panel, const Project& project, const Settings& settings) {
  FindingBuilder finding("quantities.take_off", "Materials by net and gross measure", panel.global_id,
                         "Net as the parts are; gross with small openings left in (common practice)");
  finding.decimals(3);
  const CutParts cut = cut_parts(panel);
  for (const std::string& what : cut.missing) finding.missing(what);
  if (cut.parts.empty() && cut.missing.empty()) finding.missing("the export gives no parts to measure in this panel");
  std::optional<double> limit_m2;
  if (const auto setting = settings.number("quantities.opening_deduction_over_m2")) {
    limit_m2 = finding.number("opening area up to which none is deducted", "A_lim", "m²", setting, "");
  }
  if (finding.incomplete()) return finding.not_assessed();

  std::map<LineKey, Line> lines;
  for (const CutPart& piece : cut.parts) add_part(piece, panel.parts[piece.part], project, lines);
  const double openings_m2 = openings_left_in_m2(panel, limit_m2);
  ExactSum volume;
  Table table{"Measures by material",
              {{"material", ""}, {"what", "mm"}, {"unit", ""}, {"net", ""}, {"gross", ""}, {"volume", "m³"}},
              {}};
  for (auto& [key, line] : lines) {
    for (std::size_t layer = 0; layer < line.layers.size(); ++layer) line.gross.add(openings_m2);
    volume.add(line.volume_m3.total());
    const auto& [material, what, unit] = key;
    table.rows.push_back({material, what, unit, line.net.total(), line.gross.total(), line.volume_m3.total()});
  }
  finding.step("openings left in by the gross measure of each layer", "A_in", openings_m2, "m²");
  finding.table(std::move(table));
  return finding.inform(volume.total(), "m³");
}

}  // namespace panel_dossier::quantities
