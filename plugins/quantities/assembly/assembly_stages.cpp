#include "plugins/quantities/assembly/assembly_stages.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <tuple>
#include <utility>

#include "core/api/support/tolerances.h"
#include "plugins/quantities/cutting/part_names.h"

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

}  // namespace panel_dossier::quantities
