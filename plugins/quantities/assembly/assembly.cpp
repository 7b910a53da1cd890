#include "plugins/quantities/assembly/assembly.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/tolerances.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/cut_parts.h"

namespace panel_dossier::quantities {

namespace {

bool is_frame(PartKind kind) {
  return is_framing(kind) && kind != PartKind::batten;
}

bool takes_fasteners(const Stage& stage) {
  return stage.kind != PartKind::insulation && stage.kind != PartKind::membrane && stage.kind != PartKind::other;
}

/// Sorts stages into the order of work.
enum class Turn { frame, tray, insulation, outside, inside, unplaced };

struct Zone {
  double min_m = std::numeric_limits<double>::max();
  double max_m = std::numeric_limits<double>::lowest();
};

Zone frame_zone(const Panel& panel) {
  Zone zone;
  for (const Part& part : panel.parts) {
    if (!is_frame(part.kind) || !part.bounds) continue;
    zone.min_m = std::min(zone.min_m, part.bounds->min.y);
    zone.max_m = std::max(zone.max_m, part.bounds->max.y);
  }
  return zone;
}

double middle_m(const Stage& stage) {
  return (stage.y_min_m + stage.y_max_m) / 2.0;
}

/// The depth down to which layers inside of the frame close the tray for the insulation: the inner face of the first
/// sheet, when nothing but membranes lies between it and the frame. The frame's own inner face without such a sheet.
double tray_depth_m(const std::vector<Stage>& stages, const std::vector<bool>& placed, const Zone& frame) {
  std::vector<const Stage*> inside;
  for (std::size_t i = 0; i < stages.size(); ++i) {
    if (placed[i] && middle_m(stages[i]) < frame.min_m) inside.push_back(&stages[i]);
  }
  std::sort(inside.begin(), inside.end(), [](const Stage* a, const Stage* b) { return a->y_max_m > b->y_max_m; });
  double reached_m = frame.min_m;
  for (const Stage* stage : inside) {
    if (reached_m - stage->y_max_m >= tolerance::kModelling_m) break;
    reached_m = stage->y_min_m;
    if (stage->kind == PartKind::sheet) return reached_m;
    if (stage->kind != PartKind::membrane) break;
  }
  return frame.min_m;
}

Turn turn_of(const Stage& stage, const Zone& frame, double tray_m, bool placed) {
  if (stage.name == "frame") return Turn::frame;
  if (!placed || frame.min_m > frame.max_m) return Turn::unplaced;
  const double middle = middle_m(stage);
  if (middle > frame.min_m && middle < frame.max_m) return Turn::insulation;
  if (middle >= frame.max_m) return Turn::outside;
  return middle > tray_m ? Turn::tray : Turn::inside;
}

std::string face_of(Turn turn) {
  if (turn == Turn::outside) return "outer";
  return turn == Turn::tray || turn == Turn::inside ? "inner" : "";
}

/// Away from the frame, whichever side: outwards by rising depth, inwards by falling depth.
double distance_m(const Stage& stage, Turn turn) {
  return turn == Turn::inside || turn == Turn::tray ? -stage.y_max_m : stage.y_min_m;
}

/// Gathers parts by kind and depth; parts of one layer share their inner face to a tenth of a millimetre.
std::vector<Stage> gather(const Panel& panel, const Project& project, std::vector<bool>& placed) {
  using Key = std::tuple<bool, PartKind, MaterialKey, long>;
  std::map<Key, Stage> stages;
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const Part& part = panel.parts[i];
    if (part.kind == PartKind::fastener) continue;
    const bool frame = is_frame(part.kind);
    const bool has_place = part.bounds.has_value();
    const bool by_depth = !frame && has_place && part.kind != PartKind::insulation;
    const long depth = by_depth ? std::lround(part.bounds->min.y * 1.0e4) : 0;
    const MaterialKey material = material_key(project, part.material);
    Stage& stage =
        stages[{has_place || frame, frame ? PartKind::stud : part.kind, frame ? MaterialKey{} : material, depth}];
    if (stage.parts.empty()) {
      stage.kind = frame ? PartKind::stud : part.kind;
      stage.name = frame ? "frame" : std::string(to_string(part.kind));
      stage.material = material;
      stage.y_min_m = has_place ? part.bounds->min.y : 0.0;
      stage.y_max_m = has_place ? part.bounds->max.y : 0.0;
    } else if (has_place) {
      stage.y_min_m = std::min(stage.y_min_m, part.bounds->min.y);
      stage.y_max_m = std::max(stage.y_max_m, part.bounds->max.y);
    }
    stage.parts.push_back(i);
  }
  std::vector<Stage> result;
  for (auto& [key, stage] : stages) {
    placed.push_back(std::get<0>(key));
    result.push_back(std::move(stage));
  }
  return result;
}

void add_fasteners(const Panel& panel, std::vector<Stage>& stages) {
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const Part& part = panel.parts[i];
    if (part.kind != PartKind::fastener || !part.bounds) continue;
    Stage* best = nullptr;
    double most_m = 0.0;
    for (Stage& stage : stages) {
      const double common_m = std::min(stage.y_max_m, part.bounds->max.y) - std::max(stage.y_min_m, part.bounds->min.y);
      if (!takes_fasteners(stage) || common_m <= most_m) continue;
      most_m = common_m;
      best = &stage;
    }
    if (best != nullptr) best->fasteners.push_back(i);
  }
}

}  // namespace

std::vector<Stage> assembly_stages(const Panel& panel, const Project& project) {
  std::vector<bool> placed;
  std::vector<Stage> stages = gather(panel, project, placed);
  const Zone frame = frame_zone(panel);
  const double tray = tray_depth_m(stages, placed, frame);
  std::vector<std::tuple<Turn, double, std::size_t>> order;
  for (std::size_t i = 0; i < stages.size(); ++i) {
    const Turn turn = turn_of(stages[i], frame, tray, placed[i]);
    order.emplace_back(turn, distance_m(stages[i], turn), i);
  }
  std::sort(order.begin(), order.end());
  std::vector<Stage> sorted;
  sorted.reserve(order.size());
  for (const auto& [turn, distance, index] : order) {
    sorted.push_back(std::move(stages[index]));
    sorted.back().face = face_of(turn);
  }
  add_fasteners(panel, sorted);
  return sorted;
}

const CheckDeclaration kAssemblyCheck{
    .id = "quantities.assembly",
    .title = "Assembly of the panel",
    .project_title = {},
    .sentence =
        "Every part of the panel but its fasteners stands once in the order of assembly, layer by layer from the "
        "frame, with its fixings and with what is to be checked before work goes on.",
    .clause = "Order of work by layers (common practice); terms of ISO 1803:1997 and EN 14732 (from memory)",
    .units = {"pieces"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels,
    .inputs = with_parts({optional_property("Panel_Fastener.Type"), optional_property("Panel_Fastener.Spacing"),
                          optional_setting("quantities.size_tolerance_m"),
                          optional_setting("quantities.squareness_tolerance_m")}),
    .limits = {"Laps and waste of tapes.", "Fasteners that the export gives no place.",
               "Whether a part can still be reached and fixed at its turn.",
               "Handling and turning of the panel: the workshop's lift plan alone says how."},
    .role = {},
    .for_workshop = true};

namespace {

/// Length of members in m, area of everything else in m².
std::string measure_in_words(const Panel& panel, const Stage& stage, const std::vector<CutPart>& cut) {
  const bool by_length = is_framing(stage.kind);
  ExactSum sum;
  for (const CutPart& piece : cut) {
    if (std::find(stage.parts.begin(), stage.parts.end(), piece.part) == stage.parts.end()) continue;
    const Part& part = panel.parts[piece.part];
    const double blank_m2 = metres(piece.width) * metres(piece.length);
    const double area_m2 = part.volume_m3 ? part.volume_m3->value / metres(piece.thickness) : blank_m2;
    sum.add(by_length ? metres(piece.length) : area_m2);
  }
  return fixed_text(sum.total(), 2) + (by_length ? " m" : " m²");
}

std::string fastener_in_words(const Part& part) {
  const auto spacing_m = part.properties.number("Panel_Fastener", "Spacing");
  std::string words = fastener_type(part);
  if (spacing_m && spacing_m->value > 0.0) {
    words += " at " + fixed_text(units::millimetres_from_metres(spacing_m->value), 0) + " mm";
  }
  return words;
}

/// For example `237 × Screw 4.2 x 45 at 150 mm`, equal types together.
std::string fixings_in_words(const Panel& panel, const Stage& stage) {
  std::map<std::string, int> counts;
  for (const std::size_t fastener : stage.fasteners) {
    counts[fastener_in_words(panel.parts[fastener])] += panel.parts[fastener].count;
  }
  std::string words;
  for (const auto& [name, count] : counts) {
    words.append(words.empty() ? "" : "; ").append(std::to_string(count)).append(" × ").append(name);
  }
  return words;
}

/// Each once: a frame may have studs of one material and posts of another.
std::string materials_in_words(const Panel& panel, const Project& project, const Stage& stage) {
  std::set<MaterialKey> materials;
  for (const std::size_t part : stage.parts) materials.insert(material_key(project, panel.parts[part].material));
  std::vector<std::string> names;
  names.reserve(materials.size());
  for (const MaterialKey& material : materials) names.push_back(printed_name(project, material));
  return part_names(names);
}

Table order_table(const Panel& panel, const Project& project, const std::vector<Stage>& stages,
                  const std::vector<CutPart>& cut) {
  Table table{"Order of assembly",
              {{"step", ""}, {"put in", ""}, {"material", ""}, {"pieces", ""}, {"in all", ""}, {"fixings", ""}},
              {}};
  for (const Stage& stage : stages) {
    const std::string what = stage.face.empty() ? stage.name : stage.name + ", " + stage.face + " face";
    table.rows.push_back({static_cast<double>(table.rows.size() + 1), what, materials_in_words(panel, project, stage),
                          static_cast<double>(stage.parts.size()), measure_in_words(panel, stage, cut),
                          fixings_in_words(panel, stage)});
  }
  return table;
}

/// Edges of the pieces, each joint between two counted once: half of all outlines, and the other half of the face's own
/// edge and of the openings' edges. Exact where the pieces cover the face side by side.
double edge_length_m(const Panel& panel, const Stage& stage, const std::vector<CutPart>& cut) {
  ExactSum outlines;
  for (const CutPart& piece : cut) {
    if (std::find(stage.parts.begin(), stage.parts.end(), piece.part) == stage.parts.end()) continue;
    outlines.add(2.0 * (metres(piece.width) + metres(piece.length)));
  }
  outlines.add(2.0 * (panel.width_m.value + panel.height_m.value));
  for (const Opening& opening : panel.openings) outlines.add(2.0 * (opening.width_m() + opening.height_m()));
  return outlines.total() / 2.0;
}

std::string size_in_words(double size_m) {
  return millimetres_text(micrometres(size_m));
}

/// Permitted deviations in m, where the settings give them.
struct Permitted {
  std::optional<double> size_m;
  std::optional<double> diagonals_m;  ///< difference of the two
};

/// A setting as an input of the finding, where it is given.
std::optional<double> read_optional(FindingBuilder& finding, const Settings& settings, const char* name,
                                    const char* key) {
  const auto setting = settings.number(key);
  if (!setting) return std::nullopt;
  return finding.positive(name, "", "m", setting, "");
}

/// What is checked before work goes on. Sizes in mm.
Table hold_points(const Panel& panel, const Project& project, const std::vector<Stage>& stages,
                  const Permitted& limits) {
  const std::string permitted = limits.size_m ? "± " + size_in_words(*limits.size_m) : "not set";
  const std::string equal = limits.diagonals_m ? "equal within " + size_in_words(*limits.diagonals_m) : permitted;
  Table table{"Hold points", {{"after", ""}, {"check", ""}, {"target size", "mm"}, {"permitted deviation", "mm"}}, {}};
  const double diagonal_m = std::hypot(panel.width_m.value, panel.height_m.value);
  table.rows.push_back({"frame", "width × height",
                        size_in_words(panel.width_m.value) + " × " + size_in_words(panel.height_m.value), permitted});
  table.rows.push_back({"frame", "both diagonals", fixed_text(units::millimetres_from_metres(diagonal_m), 0), equal});
  for (const Opening& opening : panel.openings) {
    table.rows.push_back({"frame", "opening " + opening.name,
                          size_in_words(opening.width_m()) + " × " + size_in_words(opening.height_m()), permitted});
  }
  for (const Stage& stage : stages) {
    if (stage.kind == PartKind::insulation) {
      table.rows.push_back({"insulation", "no gaps, before the cassette is closed", "", ""});
    } else if (stage.kind == PartKind::membrane) {
      table.rows.push_back({"membrane", "laps and edges taped: " + printed_name(project, stage.material), "", ""});
    }
  }
  table.rows.push_back({"all", "thickness", size_in_words(panel.thickness_m.value), permitted});
  return table;
}

}  // namespace

Finding assembly(const Panel& panel, const Project& project, const Settings& settings) {
  FindingBuilder finding(kAssemblyCheck, panel.global_id);
  finding.decimals(0);
  finding.positive("panel width", "b", "m", panel.width_m, "the panel has no width");
  finding.positive("panel height", "h", "m", panel.height_m, "the panel has no height");
  const CutParts cut = cut_parts(panel);
  for (const std::string& what : cut.missing) finding.missing(what);
  if (cut.parts.empty() && cut.missing.empty()) finding.missing("the export gives no parts to assemble in this panel");
  const Permitted limits{
      read_optional(finding, settings, "permitted deviation, either way", "quantities.size_tolerance_m"),
      read_optional(finding, settings, "permitted difference of the diagonals", "quantities.squareness_tolerance_m")};
  if (finding.incomplete()) return finding.not_assessed();

  const std::vector<Stage> stages = assembly_stages(panel, project);
  std::size_t pieces = 0;
  for (const Stage& stage : stages) {
    pieces += stage.parts.size();
    if (stage.kind != PartKind::membrane) continue;
    finding.step("edges and joints to tape, " + printed_name(project, stage.material), "",
                 edge_length_m(panel, stage, cut.parts), "m");
  }
  finding.table(order_table(panel, project, stages, cut.parts)).table(hold_points(panel, project, stages, limits));
  finding.note(
      "Tape is half of the outlines of the membrane's pieces, the panel and its openings together; net, without laps "
      "and "
      "waste. Sizes as built are judged in quantities.as_built_size.");
  finding.note(
      "The panel is turned over between work on its two faces. Turn and lift it by the workshop's lift plan "
      "alone; handling and dust: see the safety file.");
  return finding.inform(static_cast<double>(pieces), "pieces");
}

}  // namespace panel_dossier::quantities
