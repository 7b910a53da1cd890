#include "plugins/fire/calculation/separating_steps.h"

#include <algorithm>
#include <string>
#include <utility>

#include "core/api/support/words.h"
#include "plugins/fire/calculation/separating_function.h"

namespace panel_dossier::fire {

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
