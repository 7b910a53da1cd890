#include "plugins/fire/calculation/separating_function.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "plugins/fire/tolerances.h"

namespace panel_dossier::fire {

namespace {

Points density_points(const DataTable& table, const std::string& key) {
  Points points;
  for (const char* number : {"1", "2", "3"}) {
    const auto density = table.number(key, std::string("density_") + number);
    const auto factor = table.number(key, std::string("factor_") + number);
    if (density && factor) points.emplace_back(density->value, factor->value);
  }
  return points;
}

std::optional<double> behind_stone_wool(const Tables& tables, double wool_mm) {
  Points points;
  for (const std::string& key : tables.unexposed_position.keys()) {
    const auto thickness = tables.unexposed_position.number(key, "thickness_mm");
    const auto factor = tables.unexposed_position.number(key, "position_factor");
    if (thickness && factor) points.emplace_back(thickness->value, factor->value);
  }
  return interpolated(points, wool_mm);
}

LayerContribution board_contribution(const CassetteBoard& board, const Panel& panel, const Tables& tables,
                                     std::vector<std::string>& missing) {
  LayerContribution result;
  result.layer = board.layer;
  result.thickness_mm = board.thickness_mm;
  const auto rate = tables.boards.number(board.key, "insulation_min_per_mm");
  const auto least_mm = tables.boards.number(board.key, "minimum_mm");
  const auto most_mm = tables.boards.number(board.key, "maximum_mm");
  if (!rate || !least_mm || !most_mm) {
    missing.push_back("row '" + board.key + "' of boards.csv is incomplete");
  } else if (board.thickness_mm < least_mm->value - kRounding_mm ||
             board.thickness_mm > most_mm->value + kRounding_mm) {
    missing.push_back("layer '" + panel.layers[result.layer].name +
                      "' is outside the thickness that EN 1995-1-2 table E3 covers");
  } else {
    result.basic_min = rate->value * board.thickness_mm;
    result.origin = rate->origin;
  }
  return result;
}

LayerContribution filling_contribution(const CavityFilling& filling, const Panel& panel, const Tables& tables,
                                       std::vector<std::string>& missing) {
  LayerContribution result;
  result.layer = filling.layer;
  result.thickness_mm = filling.thickness_mm;
  const auto rate = tables.cavity_insulation.number(filling.key, "insulation_min_per_mm");
  const auto density_factor =
      interpolated(density_points(tables.cavity_insulation, filling.key), filling.density_kg_per_m3);
  if (!rate || !density_factor) {
    missing.push_back("layer '" + panel.layers[result.layer].name + "' is lighter than EN 1995-1-2 table E2 covers");
    return result;
  }
  result.basic_min = rate->value * filling.thickness_mm * *density_factor;
  result.origin = rate->origin;
  return result;
}

double total_min(const std::vector<LayerContribution>& layers) {
  double sum = 0.0;
  for (const LayerContribution& layer : layers) sum += layer.minutes();
  return sum;
}

HeatPath path_of(bool fire_inside, std::string name, std::vector<LayerContribution> layers, std::string remark) {
  HeatPath path{fire_inside, std::move(name), std::move(layers), std::nullopt, std::move(remark), false};
  path.minutes = total_min(path.layers);
  return path;
}

/// Factor of the joints in `board`; none when its sheets are not in the export.
std::optional<double> factor_of_joints(const CassetteBoard& board, const Tables& tables) {
  if (!board.joints.known) return std::nullopt;
  if (board.joints.open()) return 0.0;
  if (board.joints.unbacked.empty()) return 1.0;
  const auto factor = tables.boards.number(board.key, "unbacked_joint");
  return factor ? std::optional<double>(factor->value) : std::nullopt;
}

/// `index` of the board in the layers: 0 exposed, the last unexposed.
HeatPath joint_path(const SeparatingFunction& function, bool fire_inside, std::size_t index, const CassetteBoard& board,
                    const Tables& tables) {
  std::vector<LayerContribution> layers = function.layers;
  const std::string name = index == 0 ? "joint, fire side" : "joint, far side";
  const auto factor = factor_of_joints(board, tables);
  if (!factor) return {fire_inside, name, {}, std::nullopt, board.joints.text(), true};
  layers[index].joint_factor = *factor;
  HeatPath path = path_of(fire_inside, name, std::move(layers),
                          board.joints.open() ? "open by more than 2 mm" : board.joints.text());
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

double SeparatingFunction::insulation_time_min() const {
  return total_min(layers);
}

double HeatPath::joint_factor() const {
  double factor = 1.0;
  for (const LayerContribution& layer : layers) factor = std::min(factor, layer.joint_factor);
  return factor;
}

double exposed_position_factor(double thickness_mm) {
  return std::min(0.02 * thickness_mm + 0.54, 1.0);
}

double unexposed_position_factor_behind_glass_wool(double thickness_mm) {
  return std::max(0.07 * thickness_mm - 0.17, 0.0);
}

SeparatingFunction separating_function(const Cassette& cassette, const Panel& panel, const Tables& tables,
                                       bool fire_inside) {
  SeparatingFunction result;
  result.missing = cassette.missing;
  if (cassette.void_cavity) {
    result.missing.emplace_back("annex E's position coefficients beside a void cavity are not in the tables");
  }
  if (!result.missing.empty()) return result;
  LayerContribution exposed = board_contribution(cassette.exposed(fire_inside), panel, tables, result.missing);
  LayerContribution filling = filling_contribution(*cassette.filling, panel, tables, result.missing);
  LayerContribution unexposed = board_contribution(cassette.unexposed(fire_inside), panel, tables, result.missing);
  exposed.position_factor = exposed_position_factor(exposed.thickness_mm);
  if (cassette.filling->key == "STONE_WOOL") {
    const auto factor = behind_stone_wool(tables, filling.thickness_mm);
    if (!factor) {
      result.missing.push_back("layer '" + panel.layers[filling.layer].name +
                               "' is thinner than EN 1995-1-2 table E3 covers");
    }
    unexposed.position_factor = factor.value_or(0.0);
  } else {
    unexposed.position_factor = unexposed_position_factor_behind_glass_wool(unexposed.thickness_mm);
  }
  result.layers = {std::move(exposed), std::move(filling), std::move(unexposed)};
  return result;
}

std::vector<HeatPath> heat_paths(const SeparatingFunction& function, const Cassette& cassette, const Panel& panel,
                                 const Tables& tables, const StudsInFire& studs) {
  const bool fire_inside = studs.charring.fire_inside;
  std::vector<HeatPath> paths{path_of(fire_inside, "cavity filling", function.layers, {})};
  paths.push_back(joint_path(function, fire_inside, 0, cassette.exposed(fire_inside), tables));
  paths.push_back(
      joint_path(function, fire_inside, function.layers.size() - 1, cassette.unexposed(fire_inside), tables));
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
