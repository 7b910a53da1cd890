#include "plugins/fire/calculation/separating_function.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "plugins/fire/calculation/interpolation.h"

namespace panel_dossier::fire {

namespace {

constexpr double kRounding_mm = 1e-6;  ///< lengths of the export are whole nanometres at best

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
  result.name = panel.layers[board.layer].name;
  result.thickness_mm = board.thickness_mm;
  const auto rate = tables.boards.number(board.key, "insulation_min_per_mm");
  const auto least_mm = tables.boards.number(board.key, "minimum_mm");
  const auto most_mm = tables.boards.number(board.key, "maximum_mm");
  if (!rate || !least_mm || !most_mm) {
    missing.push_back("row '" + board.key + "' of boards.csv is incomplete");
  } else if (board.thickness_mm < least_mm->value - kRounding_mm ||
             board.thickness_mm > most_mm->value + kRounding_mm) {
    missing.push_back("layer '" + result.name + "' is outside the thickness that EN 1995-1-2 table E3 covers");
  } else {
    result.basic_min = rate->value * board.thickness_mm;
    result.origin = rate->origin;
  }
  return result;
}

LayerContribution filling_contribution(const CavityFilling& filling, const Panel& panel, const Tables& tables,
                                       std::vector<std::string>& missing) {
  LayerContribution result;
  result.name = panel.layers[filling.layer].name;
  result.thickness_mm = filling.thickness_mm;
  const auto rate = tables.cavity_insulation.number(filling.key, "insulation_min_per_mm");
  const auto density_factor =
      interpolated(density_points(tables.cavity_insulation, filling.key), filling.density_kg_per_m3);
  if (!rate || !density_factor) {
    missing.push_back("layer '" + result.name + "' is lighter than EN 1995-1-2 table E2 covers");
    return result;
  }
  result.basic_min = rate->value * filling.thickness_mm * *density_factor;
  result.origin = rate->origin;
  return result;
}

}  // namespace

double SeparatingFunction::insulation_time_min() const {
  double sum = 0.0;
  for (const LayerContribution& layer : layers) sum += layer.minutes();
  return sum;
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
  const CassetteBoard& exposed_board = fire_inside ? *cassette.inside : *cassette.outside;
  const CassetteBoard& unexposed_board = fire_inside ? *cassette.outside : *cassette.inside;
  LayerContribution exposed = board_contribution(exposed_board, panel, tables, result.missing);
  LayerContribution filling = filling_contribution(*cassette.filling, panel, tables, result.missing);
  LayerContribution unexposed = board_contribution(unexposed_board, panel, tables, result.missing);
  exposed.position_factor = exposed_position_factor(exposed.thickness_mm);
  if (cassette.filling->key == "STONE_WOOL") {
    const auto factor = behind_stone_wool(tables, filling.thickness_mm);
    if (!factor) result.missing.push_back("layer '" + filling.name + "' is thinner than EN 1995-1-2 table E3 covers");
    unexposed.position_factor = factor.value_or(0.0);
  } else {
    unexposed.position_factor = unexposed_position_factor_behind_glass_wool(unexposed.thickness_mm);
  }
  result.layers = {std::move(exposed), std::move(filling), std::move(unexposed)};
  return result;
}

}  // namespace panel_dossier::fire
