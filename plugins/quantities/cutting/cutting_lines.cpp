#include "plugins/quantities/cutting/cutting_lines.h"

#include <algorithm>
#include <map>
#include <string_view>
#include <tuple>
#include <utility>

#include "plugins/quantities/cutting/member_cuts.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/sheets/sheet_pieces.h"

namespace panel_dossier::quantities {

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
  std::map<std::string, SheetRules> rules;
  Micrometres oversize = 0;
  for (CutPart& piece : cut) {
    const Part& part = panel.parts[piece.part];
    if (part.kind != PartKind::insulation) continue;
    if (rules.empty()) oversize = read_oversize(finding, settings);
    const std::string material = material_name(project, part);
    // Cuts between pieces do not change their size, so no kerf is needed.
    if (rules.count(material) == 0) rules[material] = sheet_rules(finding, settings, material, 0);
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
                      material_name(project, part),
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
  FindingBuilder unused("quantities.cutting_list", "", panel.global_id, "");
  std::vector<std::string> marks(panel.parts.size());
  for (const CuttingLine& line : cutting_lines(unused, panel, project, settings, cut)) {
    for (const std::size_t part : line.parts) marks[part] = line.mark;
  }
  return marks;
}

}  // namespace panel_dossier::quantities
