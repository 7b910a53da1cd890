#include "plugins/fire/calculation/heat_paths.h"

#include <algorithm>
#include <utility>

namespace panel_dossier::fire {

namespace {

double sum_min(const std::vector<LayerContribution>& layers) {
  double sum = 0.0;
  for (const LayerContribution& layer : layers) sum += layer.minutes();
  return sum;
}

HeatPath path_of(bool fire_inside, std::string name, std::vector<LayerContribution> layers, std::string remark) {
  HeatPath path{fire_inside, std::move(name), std::move(layers), std::nullopt, std::move(remark), false};
  path.minutes = sum_min(path.layers);
  return path;
}

/// Factor of the joints in `board`; none when its sheets are not in the export.
std::optional<double> joint_factor(const CassetteBoard& board, const Tables& tables) {
  if (!board.joints.known) return std::nullopt;
  if (board.open_joints()) return 0.0;
  if (board.joints.unbacked.empty()) return 1.0;
  const auto factor = tables.boards.number(board.key, "unbacked_joint");
  return factor ? std::optional<double>(factor->value) : std::nullopt;
}

/// `index` of the board in the layers: 0 exposed, the last unexposed.
HeatPath joint_path(const SeparatingFunction& function, bool fire_inside, std::size_t index, const CassetteBoard& board,
                    const Tables& tables) {
  std::vector<LayerContribution> layers = function.layers;
  const std::string name = index == 0 ? "joint, fire side" : "joint, far side";
  const auto factor = joint_factor(board, tables);
  if (!factor) return {fire_inside, name, {}, std::nullopt, board.joints.text(), true};
  layers[index].joint_factor = *factor;
  HeatPath path = path_of(fire_inside, name, std::move(layers),
                          board.open_joints() ? "open by more than 2 mm" : board.joints.text());
  path.is_joint = true;
  return path;
}

HeatPath stud_path(bool fire_inside, const StudsInFire& studs) {
  HeatPath path{fire_inside, "stud", {}, std::nullopt, {}, false};
  if (!studs.missing.empty()) {
    path.remark = "not calculated: " + studs.missing.front();
    return path;
  }
  if (studs.charring.back_min > kAnnexesCAndDLimit_min) {
    path.remark = "not charred through at 60 min; not annex E";
    return path;
  }
  path.minutes = studs.charring.back_min;
  path.remark = studs.charring.rule == CharringRule::glass_wool ? "fails at t_f (annex C); not annex E"
                                                                : "char at its back; not annex E";
  return path;
}

}  // namespace

std::vector<HeatPath> heat_paths(const SeparatingFunction& function, const Cassette& cassette, const Panel& panel,
                                 const Tables& tables, const StudsInFire& studs) {
  const bool fire_inside = studs.charring.fire_inside;
  const CassetteBoard& exposed = fire_inside ? *cassette.inside : *cassette.outside;
  const CassetteBoard& unexposed = fire_inside ? *cassette.outside : *cassette.inside;
  std::vector<HeatPath> paths{path_of(fire_inside, "cavity filling", function.layers, {})};
  paths.push_back(joint_path(function, fire_inside, 0, exposed, tables));
  paths.push_back(joint_path(function, fire_inside, function.layers.size() - 1, unexposed, tables));
  paths.push_back(stud_path(fire_inside, studs));
  for (const Opening& opening : panel.openings) {
    if (!opening.filling_entity.empty()) continue;
    paths.push_back(
        {fire_inside, "penetration '" + opening.name + "'", {}, std::nullopt, "by test of its seal", false});
  }
  return paths;
}

const HeatPath* governing_path(const std::vector<HeatPath>& paths) {
  const HeatPath* governing = nullptr;
  for (const HeatPath& path : paths) {
    const bool annex_e = path.minutes && !path.layers.empty();
    if (annex_e && (governing == nullptr || *path.minutes < *governing->minutes)) governing = &path;
  }
  return governing;
}

}  // namespace panel_dossier::fire
