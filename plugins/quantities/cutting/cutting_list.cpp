#include "plugins/quantities/cutting/cutting_list.h"

#include <algorithm>
#include <map>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/roles.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/cut_parts.h"
#include "plugins/quantities/cutting/member_cuts.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/sheets/sheet_pieces.h"
#include "plugins/quantities/takeoff/project_total.h"

namespace panel_dossier::quantities {

const CheckDeclaration kCuttingListCheck{
    .id = "quantities.cutting_list",
    .title = "Pieces to cut for the panel",
    .project_title = "Pieces to cut for all panels",
    .sentence =
        "Every framing member, sheet, slab, membrane and cladding board of the panel stands once in the list, by "
        "the smallest straight blank that holds it; the project's number is the sum of its panels.",
    .clause = "Blank sizes of the parts in the export (common practice)",
    .other_clauses = {kSumOverPanels},
    .units = {"pieces"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = {optional_property("Panel_Member.Holes"), optional_setting("quantities.insulation_oversize_m"),
               optional_setting("quantities.sheet_sizes_m.*.material"),
               optional_setting("quantities.sheet_sizes_m.*.width"),
               optional_setting("quantities.sheet_sizes_m.*.length"),
               optional_setting("quantities.sheet_sizes_m.*.may_turn")},
    .limits = {"Allowance for the saw cut, planing and movement with moisture: sizes are nominal.",
               "Notches, tapers and cut-outs: such a part is `shaped` and needs its drawing.",
               "Fasteners, and parts of a kind that the workshop does not cut."},
    .role = std::string(role::kCuttingList)};

namespace {

std::string_view mark_letters(PartKind kind) {
  switch (kind) {
    case PartKind::stud: return "ST";
    case PartKind::post: return "PO";
    case PartKind::rail: return "RL";
    case PartKind::lintel: return "LI";
    case PartKind::blocking: return "BL";
    case PartKind::batten: return "BT";
    case PartKind::sheet: return "SH";
    case PartKind::membrane: return "ME";
    case PartKind::insulation: return "IN";
    case PartKind::cladding: return "CL";
    default: return "PT";
  }
}

/// Kinds in the order of PartKind, then large sections and long pieces first: the order in which a workshop cuts.
auto sort_key(const CuttingLine& line) {
  return std::tuple(line.kind, line.material, -line.size.width, -line.size.thickness, -line.size.length,
                    !line.size.rectangular, line.shape, line.holes);
}

bool same_piece(const Panel& panel, const CuttingLine& a, const CuttingLine& b) {
  if (sort_key(a) != sort_key(b)) return false;
  // Blanks of shaped parts may be equal while the shapes are not.
  return a.size.rectangular || same_mitres(panel.parts[a.parts.front()], panel.parts[b.parts.front()], a.size);
}

/// Sizes as the nesting cuts them.
std::vector<CutPart> insulation_as_cut(FindingBuilder& finding, const Panel& panel, const Project& project,
                                       const Settings& settings, std::vector<CutPart> cut) {
  std::map<MaterialKey, SheetRules> rules;
  Micrometres oversize = 0;
  for (CutPart& piece : cut) {
    const Part& part = panel.parts[piece.part];
    if (part.kind != PartKind::insulation) continue;
    if (rules.empty()) oversize = read_oversize(finding, settings);
    const MaterialKey material = material_key(project, part.material);
    // Cuts between pieces do not change their size, so no kerf is needed.
    if (rules.count(material) == 0) {
      rules[material] = sheet_rules(finding, project, settings, material, 0).value_or(SheetRules{});
    }
    const FlatSize size = cut_size(upright_size(piece, part), part.kind, oversize, rules[material]);
    piece.width = std::min(size.width, size.length);
    piece.length = std::max(size.width, size.length);
  }
  if (oversize > 0) finding.note("Insulation is listed as cut: larger than its space where the slab allows.");
  return cut;
}

/// One line a piece, unsorted and without marks.
std::vector<CuttingLine> single_lines(FindingBuilder& finding, const Panel& panel, const Project& project,
                                      const std::vector<CutPart>& cut) {
  std::vector<CuttingLine> pieces;
  pieces.reserve(cut.size());
  for (const CutPart& piece : cut) {
    const Part& part = panel.parts[piece.part];
    const auto holes = holes_in_words(part, piece);
    if (!holes) {
      finding.missing("part '" + part.name +
                      "': Panel_Member.Holes is not diameter@distance in mm within the member, as '20@300; 20@900'");
    }
    pieces.push_back({"",
                      part.kind,
                      material_key(project, part.material),
                      piece,
                      {piece.part},
                      shape_in_words(part, piece),
                      holes.value_or("")});
  }
  return pieces;
}

}  // namespace

std::vector<CuttingLine> cutting_lines(FindingBuilder& finding, const Panel& panel, const Project& project,
                                       const Settings& settings, const std::vector<CutPart>& cut) {
  std::vector<CuttingLine> pieces =
      single_lines(finding, panel, project, insulation_as_cut(finding, panel, project, settings, cut));
  std::stable_sort(pieces.begin(), pieces.end(),
                   [](const CuttingLine& a, const CuttingLine& b) { return sort_key(a) < sort_key(b); });
  std::map<PartKind, int> numbers;
  std::vector<CuttingLine> lines;
  for (CuttingLine& piece : pieces) {
    if (!lines.empty() && same_piece(panel, lines.back(), piece)) {
      lines.back().parts.push_back(piece.parts.front());
      continue;
    }
    piece.mark = std::string(mark_letters(piece.kind)) + std::to_string(++numbers[piece.kind]);
    lines.push_back(std::move(piece));
  }
  return lines;
}

std::vector<std::string> part_marks(const Panel& panel, const Project& project, const Settings& settings,
                                    const std::vector<CutPart>& cut) {
  // What it notes is for the panel's own cutting list.
  FindingBuilder unused(kCuttingListCheck, panel.global_id);
  std::vector<std::string> marks(panel.parts.size());
  for (const CuttingLine& line : cutting_lines(unused, panel, project, settings, cut)) {
    for (const std::size_t part : line.parts) marks[part] = line.mark;
  }
  return marks;
}

namespace {

std::vector<std::string> names_of(const Panel& panel, const std::vector<std::size_t>& parts) {
  std::vector<std::string> names;
  names.reserve(parts.size());
  for (const std::size_t part : parts) names.push_back(panel.parts[part].name);
  return names;
}

Table list_table(const Panel& panel, const Project& project, const std::vector<CuttingLine>& lines) {
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
              {},
              "pieces"};
  for (const CuttingLine& line : lines) {
    table.rows.push_back({line.mark, std::string(to_string(line.kind)), printed_name(project, line.material),
                          millimetres(line.size.thickness), millimetres(line.size.width), millimetres(line.size.length),
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
  finding.step("all pieces", "N", static_cast<double>(cut.size()), "", "N = sum(count)")
      .step("total length of the framing pieces", "L", metres(framing), "m");
}

}  // namespace

Finding cutting_list(const Panel& panel, const Project& project, const Settings& settings) {
  FindingBuilder finding(kCuttingListCheck, panel.global_id);
  finding.decimals(0);
  const CutParts cut = cut_parts(panel);
  for (const std::string& what : cut.missing) finding.missing(what);
  if (cut.parts.empty() && cut.missing.empty()) finding.missing("the export gives no parts to cut in this panel");
  const std::vector<CuttingLine> lines = cutting_lines(finding, panel, project, settings, cut.parts);
  if (finding.incomplete()) return finding.not_assessed();

  add_counts(finding, panel, cut.parts);
  finding.table(list_table(panel, project, lines));
  finding.note(
      "Sizes are nominal, without allowance for kerf, planing or moisture movement. Ends are square unless angles to "
      "the axis are given. `shaped`: cut from a blank of this size to the part's drawing; such parts are never "
      "grouped.");
  finding.note("Fasteners are not in this list.");
  return finding.inform(static_cast<double>(cut.parts.size()), "pieces");
}

}  // namespace panel_dossier::quantities
