#include "plugins/quantities/cutting/cutting_list.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <string_view>
#include <tuple>
#include <utility>

#include "core/api/finding/roles.h"
#include "core/api/model/panel.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/sheets/sheet_pieces.h"
#include "plugins/quantities/takeoff/project_total.h"

namespace panel_dossier::quantities {

namespace {

constexpr double kSquare_deg = 90.0;

/// Sines below this are rounding of the export's coordinates: 1 mm in 2 m.
constexpr double kParallel = 5.0e-4;

constexpr double kCoincident_m = 1.0e-6;

Vec2 direction(const Vec2& from, const Vec2& to) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  return {(to.x - from.x) / length, (to.y - from.y) / length};
}

/// Sine of the angle between two directions, not negative.
double sine(const Vec2& a, const Vec2& b) {
  return std::abs(a.x * b.y - a.y * b.x);
}

/// Without repeated points and points in the middle of a straight edge.
Polygon corners_of(const Polygon& outline) {
  Polygon points;
  for (const Vec2& p : outline) {
    if (points.empty() || std::hypot(p.x - points.back().x, p.y - points.back().y) > kCoincident_m) points.push_back(p);
  }
  Polygon corners;
  for (std::size_t i = 0; i < points.size() && points.size() > 2; ++i) {
    const Vec2& before = points[(i + points.size() - 1) % points.size()];
    const Vec2& after = points[(i + 1) % points.size()];
    if (sine(direction(before, points[i]), direction(points[i], after)) > kParallel) corners.push_back(points[i]);
  }
  return corners;
}

double angle_deg(double sine_of_angle) {
  return units::degrees_from_radians(std::asin(std::min(1.0, sine_of_angle)));
}

/// The member's side face is the outline: two parallel edges run along it, the other two are its ends.
std::optional<std::pair<double, double>> ends_of_side_face(const Polygon& outline) {
  const Polygon corners = corners_of(outline);
  if (corners.size() != 4) return std::nullopt;
  std::array<Vec2, 4> edges{};
  std::array<double, 4> lengths{};
  for (std::size_t i = 0; i < 4; ++i) {
    const Vec2& next = corners[(i + 1) % 4];
    edges[i] = direction(corners[i], next);
    lengths[i] = std::hypot(next.x - corners[i].x, next.y - corners[i].y);
  }
  const std::size_t along = lengths[0] + lengths[2] >= lengths[1] + lengths[3] ? 0 : 1;
  if (sine(edges[along], edges[along + 2]) > kParallel) return std::nullopt;
  const double first = angle_deg(sine(edges[along], edges[along + 1]));
  const double second = angle_deg(sine(edges[along], edges[(along + 3) % 4]));
  return std::minmax({first, second});
}

std::optional<double> positive_number(std::string_view text) {
  const auto value = parse_decimal(text);
  return value && *value > 0.0 ? value : std::nullopt;
}

/// Distances by diameter, both in mm.
using Holes = std::map<double, std::vector<double>>;

std::optional<Holes> parse_holes(std::string_view text) {
  Holes holes;
  while (!text.empty()) {
    const std::string_view entry = text.substr(0, text.find(';'));
    text.remove_prefix(std::min(text.size(), entry.size() + 1));
    const std::size_t at = entry.find('@');
    if (at == std::string_view::npos) return std::nullopt;
    const auto diameter = positive_number(entry.substr(0, at));
    const auto distance = positive_number(entry.substr(at + 1));
    if (!diameter || !distance) return std::nullopt;
    holes[*diameter].push_back(*distance);
  }
  return holes;
}

std::string short_number(double value) {
  return fixed_text(value, value == std::floor(value) ? 0 : 1);
}

/// Angles in degrees between the cuts at the two ends and the member's axis, the smaller first; 90 is a square cut.
/// None when the shape is not one straight piece between two straight cuts (notched, tapered, or no solid).
std::optional<std::pair<double, double>> end_angles_deg(const Part& part, const CutPart& cut) {
  if (!part.solid) return std::nullopt;
  const bool along_extrusion = micrometres(part.solid->depth_m) == cut.length;
  if (!along_extrusion) return ends_of_side_face(part.solid->outline);
  if (corners_of(part.solid->outline).size() != 4) return std::nullopt;
  const double angle = angle_deg(std::abs(part.solid->direction.z));
  return std::pair(angle, angle);
}

/// `rectangular`, `ends 45° and 90°` or `shaped`.
std::string shape_in_words(const Part& part, const CutPart& cut) {
  if (cut.rectangular) return "rectangular";
  const auto angles = is_framing(part.kind) ? end_angles_deg(part, cut) : std::nullopt;
  if (!angles) return "shaped";
  const auto is_square = [](double angle) { return kSquare_deg - angle < 0.05; };
  // Square at both ends and yet short of its blank: notched or drilled.
  if (is_square(angles->first) && is_square(angles->second)) return "shaped";
  return "ends " + short_number(std::round(angles->first * 10.0) / 10.0) + "° and " +
         short_number(std::round(angles->second * 10.0) / 10.0) + "°";
}

/// A solid with two straight end cuts that nothing else is taken from.
bool cut_at_ends_alone(const Part& part, const CutPart& cut) {
  if (!part.solid || !end_angles_deg(part, cut)) return false;
  return !part.volume_m3 || fills(part.volume_m3->value, part.solid->volume_m3());
}

/// Whether two parts of the same blank, cut at their ends alone, are the same piece: their solids are equal.
bool same_mitres(const Part& a, const Part& b, const CutPart& cut) {
  if (!is_framing(a.kind) || !cut_at_ends_alone(a, cut) || !cut_at_ends_alone(b, cut)) return false;
  const auto same = [](double x, double y) { return micrometres(x) == micrometres(y); };
  const Extrusion& first = *a.solid;
  const Extrusion& second = *b.solid;
  const bool same_direction = same(first.direction.x, second.direction.x) &&
                              same(first.direction.y, second.direction.y) &&
                              same(first.direction.z, second.direction.z);
  return same(first.depth_m, second.depth_m) && same_direction &&
         std::equal(first.outline.begin(), first.outline.end(), second.outline.begin(), second.outline.end(),
                    [&](const Vec2& p, const Vec2& q) { return same(p.x, q.x) && same(p.y, q.y); });
}

/// Holes as the workshop reads them, `20 mm at 300, 900`, from Panel_Member.Holes: diameter and distance from the lower
/// or left end in mm, as `20@300; 20@900`. Empty when the part has none; none when the text cannot be read or a hole
/// lies outside the member.
std::optional<std::string> holes_in_words(const Part& part, const CutPart& cut) {
  const auto text = part.properties.text("Panel_Member", "Holes");
  if (!text) return std::string();
  const auto holes = parse_holes(text->value);
  if (!holes) return std::nullopt;
  std::string words;
  for (const auto& [diameter, distances] : *holes) {
    words += (words.empty() ? "" : "; ") + short_number(diameter) + " mm at ";
    for (std::size_t i = 0; i < distances.size(); ++i) {
      if (distances[i] >= millimetres(cut.length)) return std::nullopt;
      words += (i == 0 ? "" : ", ") + short_number(distances[i]);
    }
  }
  return words;
}

}  // namespace

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
    .inputs = with_model({optional_property("Panel_Member.Holes"), optional_setting("quantities.insulation_oversize_m"),
                          optional_setting("quantities.sheet_sizes_m.*.material"),
                          optional_setting("quantities.sheet_sizes_m.*.width"),
                          optional_setting("quantities.sheet_sizes_m.*.length"),
                          optional_setting("quantities.sheet_sizes_m.*.may_turn")}),
    .limits = {"Allowance for the saw cut, planing and movement with moisture: sizes are nominal.",
               "Notches, tapers and cut-outs: such a part is 'shaped' and needs its drawing.",
               "Fasteners, and parts of a kind that the workshop does not cut."},
    .role = std::string(role::kCuttingList),
    .for_workshop = true};

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
      "the axis are given. 'shaped': cut from a blank of this size to the part's drawing; such parts are never "
      "grouped.");
  finding.note("Fasteners are not in this list.");
  return finding.inform(static_cast<double>(cut.parts.size()), "pieces");
}

}  // namespace panel_dossier::quantities
