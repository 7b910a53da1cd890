#include <algorithm>
#include <map>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include "core/api/finding_builder.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cut_parts.h"
#include "plugins/quantities/member_cuts.h"
#include "plugins/quantities/part_names.h"
#include "plugins/quantities/sheet_pieces.h"

namespace panel_dossier::quantities {

namespace {

/// Equal pieces: one line of the list.
struct ListLine {
  PartKind kind = PartKind::other;
  std::string material;
  CutPart size;
  std::vector<std::size_t> parts;  ///< indices into Panel::parts
  std::string shape;
  std::string holes;
};

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
auto sort_key(const ListLine& line) {
  return std::tuple(line.kind, line.material, -line.size.width, -line.size.thickness, -line.size.length,
                    !line.size.rectangular, line.holes);
}

bool same_piece(const ListLine& a, const ListLine& b) {
  // Blanks of shaped parts may be equal while the shapes are not, so each keeps its own line.
  return a.size.rectangular && sort_key(a) == sort_key(b);
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

std::vector<ListLine> list_lines(FindingBuilder& finding, const Panel& panel, const Project& project,
                                 const std::vector<CutPart>& cut) {
  std::vector<ListLine> pieces;
  for (const CutPart& piece : cut) {
    const Part& part = panel.parts[piece.part];
    const auto holes = holes_in_words(part, piece);
    if (!holes) {
      finding.missing("part '" + part.name +
                      "': Panel_Member.Holes is not diameter@distance in mm within the member, as '20@300; 20@900'");
    }
    pieces.push_back({part.kind,
                      material_name(project, part),
                      piece,
                      {piece.part},
                      shape_in_words(part, piece),
                      holes.value_or("")});
  }
  std::stable_sort(pieces.begin(), pieces.end(),
                   [](const ListLine& a, const ListLine& b) { return sort_key(a) < sort_key(b); });
  std::vector<ListLine> lines;
  for (ListLine& piece : pieces) {
    if (!lines.empty() && same_piece(lines.back(), piece)) {
      lines.back().parts.push_back(piece.parts.front());
    } else {
      lines.push_back(std::move(piece));
    }
  }
  return lines;
}

std::vector<std::string> names_of(const Panel& panel, const std::vector<std::size_t>& parts) {
  std::vector<std::string> names;
  names.reserve(parts.size());
  for (const std::size_t part : parts) names.push_back(panel.parts[part].name);
  return names;
}

Table list_table(const Panel& panel, const std::vector<ListLine>& lines) {
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
  std::map<PartKind, int> numbers;
  for (const ListLine& line : lines) {
    const std::string mark = std::string(mark_letters(line.kind)) + std::to_string(++numbers[line.kind]);
    table.rows.push_back({mark, std::string(to_string(line.kind)), line.material, millimetres(line.size.thickness),
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
  const std::vector<CutPart> parts = insulation_as_cut(finding, panel, project, settings, cut.parts);
  const std::vector<ListLine> lines = list_lines(finding, panel, project, parts);
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
