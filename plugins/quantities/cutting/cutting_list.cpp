#include <map>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/cut_parts.h"
#include "plugins/quantities/cutting/cutting_lines.h"
#include "plugins/quantities/cutting/part_names.h"

namespace panel_dossier::quantities {

namespace {

std::vector<std::string> names_of(const Panel& panel, const std::vector<std::size_t>& parts) {
  std::vector<std::string> names;
  names.reserve(parts.size());
  for (const std::size_t part : parts) names.push_back(panel.parts[part].name);
  return names;
}

Table list_table(const Panel& panel, const std::vector<CuttingLine>& lines) {
  Table table{"Cutting list",
              {{"part mark", ""},
               {"kind", ""},
               {"material", ""},
               {"thickness", "mm"},
               {"width", "mm"},
               {"length", "mm"},
               {"count", ""},
               {"shape", ""},
               {"parts", ""}},
              {}};
  for (const CuttingLine& line : lines) {
    table.rows.push_back({line.mark, std::string(to_string(line.kind)), line.material, millimetres(line.size.thickness),
                          millimetres(line.size.width), millimetres(line.size.length),
                          static_cast<double>(line.parts.size()),
                          line.holes.empty() ? line.shape : line.shape + ", holes " + line.holes,
                          part_names(names_of(panel, line.parts))});
  }
  return table;
}

void add_counts(FindingBuilder& finding, const Panel& panel, const std::vector<CutPart>& cut) {
  std::map<PartKind, std::vector<std::size_t>> parts_by_kind;
  Micrometres framing = 0;
  for (const CutPart& piece : cut) {
    const PartKind kind = panel.parts[piece.part].kind;
    parts_by_kind[kind].push_back(piece.part);
    if (is_framing(kind)) framing += piece.length;
  }
  for (const auto& [kind, parts] : parts_by_kind) {
    const Sourced<double> count{static_cast<double>(parts.size()), panel.parts[parts.front()].origin};
    finding.number("pieces of kind " + std::string(to_string(kind)) + " (source: the first of them)", "n", "", count,
                   {});
  }
  finding.step("all pieces", "N", static_cast<double>(cut.size()), "", "N = Σ n")
      .step("total framing length", "L", metres(framing), "m", "L = Σ l_i");
}

}  // namespace

Finding cutting_list(const Panel& panel, const Project& project, const Settings& settings) {
  FindingBuilder finding("quantities.cutting_list", "Pieces to cut for the panel", panel.global_id,
                         "Blank sizes of the parts in the export (common practice)");
  finding.decimals(0);
  const CutParts cut = cut_parts(panel);
  for (const std::string& what : cut.missing) finding.missing(what);
  if (cut.parts.empty() && cut.missing.empty()) finding.missing("the export gives no parts to cut in this panel");
  const std::vector<CuttingLine> lines = cutting_lines(finding, panel, project, settings, cut.parts);
  if (finding.incomplete()) return finding.not_assessed();

  add_counts(finding, panel, cut.parts);
  finding.table(list_table(panel, lines));
  finding.note(
      "Sizes are nominal, without allowance for kerf, planing or moisture movement. Ends are square unless angles to "
      "the axis are given. `shaped`: cut from a blank of this size to the part's drawing; such parts are never "
      "grouped.");
  finding.note("Fasteners are not in this list.");
  return finding.inform(static_cast<double>(cut.parts.size()), "pieces");
}

}  // namespace panel_dossier::quantities
