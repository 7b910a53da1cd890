#include "plugins/fire/calculation/separating_function.h"

#include <algorithm>
#include <utility>

#include "core/api/support/words.h"
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

namespace {

/// Of `function.layers`, which stand from the fire to the unexposed side.
enum Position : std::size_t { kExposed, kFilling, kUnexposed };

/// Index of a layer in the symbols of the finding: the inner board, the cavity and the outer board.
const char* place_of(Position position, bool fire_inside) {
  if (position == kFilling) return "c";
  return (position == kExposed) == fire_inside ? "i" : "o";
}

std::string symbol_of(const char* quantity, Position position, bool fire_inside) {
  return std::string(quantity) + "," + place_of(position, fire_inside);
}

/// kpos depends on the side of the fire as well: `k_pos,i,out`.
std::string factor_symbol(Position position, bool fire_inside) {
  return symbol_of("k_pos", position, fire_inside) + (fire_inside ? ",in" : ",out");
}

/// Data of the layers from inside to outside; the same for either direction of fire.
void add_layer_inputs(FindingBuilder& builder, const Panel& panel, const SeparatingFunction& fire_inside) {
  for (const Position position : {kExposed, kFilling, kUnexposed}) {
    const LayerContribution& part = fire_inside.layers[position];
    const Layer& layer = panel.layers[part.layer];
    builder.number("thickness of '" + layer.name + "'", symbol_of("h", position, true), "mm",
                   Sourced<double>{part.thickness_mm, layer.thickness_m.origin}, {});
    builder.number("basic insulation value of '" + layer.name + "'", symbol_of("t_ins,0", position, true), "min",
                   Sourced<double>{part.basic_min, part.origin}, {});
  }
}

void add_time_steps(FindingBuilder& builder, const SeparatingFunction& function, const Cassette& cassette,
                    bool fire_inside) {
  const std::string side = std::string(", fire ") + face(fire_inside);
  const std::string exposed = factor_symbol(kExposed, fire_inside);
  const std::string unexposed = factor_symbol(kUnexposed, fire_inside);
  const bool stone_wool = cassette.filling->key == "STONE_WOOL";
  builder
      .step("position coefficient of the exposed board" + side + ", (E.8)", exposed,
            function.layers[kExposed].position_factor, "",
            exposed + " = min(0.02 · " + symbol_of("h", kExposed, fire_inside) + " + 0.54; 1)")
      .step("position coefficient of the unexposed board" + side +
                (stone_wool ? ", table E3, linear between its rows" : ", (E.9)"),
            unexposed, function.layers[kUnexposed].position_factor, "",
            stone_wool ? std::string()
                       : unexposed + " = max(0.07 · " + symbol_of("h", kUnexposed, fire_inside) + " − 0.17; 0)");
  const std::string time = fire_inside ? "t_ins,in" : "t_ins,out";
  builder.step("calculated insulation time" + side, time, function.insulation_time_min(), "min",
               time + " = " + symbol_of("t_ins,0", kExposed, fire_inside) + " · " + exposed + " + " +
                   symbol_of("t_ins,0", kFilling, fire_inside) + " + " + symbol_of("t_ins,0", kUnexposed, fire_inside) +
                   " · " + unexposed);
}

Table layer_table() {
  return {"Layers of the bare cassette, EN 1995-1-2:2004 annex E",
          {{"fire", ""}, {"layer", ""}, {"h", "mm"}, {"t_ins,0", "min"}, {"k_pos", ""}, {"t_ins,0 · k_pos", "min"}},
          {}};
}

void add_layers(Table& table, const Panel& panel, const SeparatingFunction& function, bool fire_inside) {
  for (const LayerContribution& layer : function.layers) {
    table.rows.push_back({std::string(face(fire_inside)), panel.layers[layer.layer].name, layer.thickness_mm,
                          layer.basic_min, layer.position_factor, layer.basic_min * layer.position_factor});
  }
}

Table path_table(const std::vector<HeatPath>& paths, const HeatPath* governing) {
  Table table{"Ways of heat through the cassette: t_ins = Σ t_ins,0 · k_pos · k_j",
              {{"fire", ""}, {"way", ""}, {"k_j", ""}, {"time", "min"}, {"governs", ""}, {"remark", ""}},
              {}};
  for (const HeatPath& path : paths) {
    table.rows.push_back(
        {std::string(face(path.fire_inside)), path.name, path.layers.empty() ? Value{} : Value{path.joint_factor()},
         path.minutes ? Value{*path.minutes} : Value{}, std::string(&path == governing ? "governs" : ""), path.remark});
  }
  return table;
}

/// One bar a way, each layer's share after that of the layer before it. Joints that change nothing have no bar.
BarChart path_chart(const std::vector<HeatPath>& paths) {
  BarChart chart{"Time that each layer adds, by the side of the fire",
                 "time",
                 "min",
                 {"exposed board", "cavity filling", "unexposed board"},
                 {}};
  for (const HeatPath& path : paths) {
    if (path.layers.empty() || (path.is_joint && path.joint_factor() == 1.0)) continue;
    std::vector<double> minutes;
    for (const LayerContribution& layer : path.layers) minutes.push_back(layer.minutes());
    chart.bars.push_back(stacked_bar(std::string(face(path.fire_inside)) + ": " + path.name, minutes));
  }
  return chart;
}

void note_ways(FindingBuilder& builder) {
  builder.note(
      "Joints are read from the sheets of the export: k_j = 1 where framing lies behind (E2.6), else the least "
      "value of tables E6 and E7; the board at a joint open by more than 2 mm counts for nothing. The stud's time "
      "is that at which char reaches its back. Integrity is taken as given by insulation with boards fixed as "
      "annex E and section 7 ask.");
}

}  // namespace

std::vector<CheckInput> separating_function_inputs() {
  return {data_table("cavity_insulation.csv"), data_table("charring_rates.csv"), data_table("stud_section.csv"),
          data_table("unexposed_position.csv"), optional_property("Panel_Fire.CharringClass")};
}

void add_separating_function(FindingBuilder& builder, const Panel& panel, const Project& project,
                             const Cassette& cassette, const Tables& tables) {
  Table layers = layer_table();
  std::vector<HeatPath> paths;
  for (const bool fire_inside : {true, false}) {
    const SeparatingFunction function = separating_function(cassette, panel, tables, fire_inside);
    if (!function.missing.empty()) {
      builder.step_text(kNotCalculated, joined(function.missing, "; "));
      return;
    }
    if (fire_inside) add_layer_inputs(builder, panel, function);
    add_layers(layers, panel, function, fire_inside);
    const StudsInFire studs = studs_in_fire(panel, project, cassette, tables, kAnnexELimit_min, fire_inside, false);
    for (HeatPath& path : heat_paths(function, cassette, panel, tables, studs)) paths.push_back(std::move(path));
    add_time_steps(builder, function, cassette, fire_inside);
  }
  const HeatPath* governing = governing_path(paths);
  builder.step("time of the governing way, the shortest that annex E gives", "t_ins,min", *governing->minutes, "min")
      .step("calculated insulation time of the governing way; annex E ends at 60 min", "t_ins",
            std::min(*governing->minutes, kAnnexELimit_min), "min", "t_ins = min(t_ins,min; 60)")
      .table(std::move(layers))
      .table(path_table(paths, governing))
      .bar_chart(path_chart(paths));
  note_ways(builder);
  note_scope(builder, cassette);
}

}  // namespace panel_dossier::fire
