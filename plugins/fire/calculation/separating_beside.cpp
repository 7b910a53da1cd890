#include <algorithm>
#include <utility>

#include "core/api/support/words.h"
#include "plugins/fire/calculation/calculation_beside.h"
#include "plugins/fire/calculation/calculation_notes.h"
#include "plugins/fire/calculation/heat_paths.h"

namespace panel_dossier::fire {

namespace {

/// Input rows of the layers' data; the same for either direction.
void add_layer_inputs(FindingBuilder& builder, const Panel& panel, const SeparatingFunction& function) {
  for (const LayerContribution& part : function.layers) {
    const auto layer = std::find_if(panel.layers.begin(), panel.layers.end(),
                                    [&](const Layer& candidate) { return candidate.name == part.name; });
    if (layer == panel.layers.end()) continue;
    builder.number("thickness of '" + part.name + "'", "h", "mm",
                   Sourced<double>{part.thickness_mm, layer->thickness_m.origin}, {});
    builder.number("basic insulation value of '" + part.name + "'", "t_ins,0", "min",
                   Sourced<double>{part.basic_min, part.origin}, {});
  }
}

Table layer_table() {
  return {"Layers of the bare cassette, EN 1995-1-2:2004 annex E",
          {{"fire", ""}, {"layer", ""}, {"h", "mm"}, {"t_ins,0", "min"}, {"k_pos", ""}, {"t_ins,0 · k_pos", "min"}},
          {}};
}

void add_layers(Table& table, const SeparatingFunction& function, bool fire_inside) {
  for (const LayerContribution& layer : function.layers) {
    table.rows.push_back({std::string(face(fire_inside)), layer.name, layer.thickness_mm, layer.basic_min,
                          layer.position_factor, layer.basic_min * layer.position_factor});
  }
}

/// Product of the joint factors of a path; 1 where joints do not matter.
double joint_factor(const HeatPath& path) {
  double factor = 1.0;
  for (const LayerContribution& layer : path.layers) factor = std::min(factor, layer.joint_factor);
  return factor;
}

Table path_table(const std::vector<HeatPath>& paths, const HeatPath* governing) {
  Table table{"Ways of heat through the cassette: t_ins = Σ t_ins,0 · k_pos · k_j",
              {{"fire", ""}, {"way", ""}, {"k_j", ""}, {"time", "min"}, {"governs", ""}, {"remark", ""}},
              {}};
  for (const HeatPath& path : paths) {
    table.rows.push_back(
        {std::string(face(path.fire_inside)), path.name, path.layers.empty() ? Value{} : Value{joint_factor(path)},
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
    if (path.layers.empty() || (path.is_joint && joint_factor(path) == 1.0)) continue;
    std::vector<double> minutes;
    for (const LayerContribution& layer : path.layers) minutes.push_back(layer.minutes());
    chart.bars.push_back(stacked_bar(std::string(face(path.fire_inside)) + ": " + path.name, minutes));
  }
  return chart;
}

}  // namespace

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
    add_layers(layers, function, fire_inside);
    const StudsInFire studs = studs_in_fire(panel, project, cassette, tables, kAnnexELimit_min, fire_inside, false);
    for (HeatPath& path : heat_paths(function, cassette, panel, tables, studs)) paths.push_back(std::move(path));
    builder.step(std::string("calculated insulation time, fire ") + face(fire_inside), "t_ins",
                 function.insulation_time_min(), "min", "t_ins = Σ t_ins,0 · k_pos · k_j");
  }
  const HeatPath* governing = governing_path(paths);
  builder
      .step("calculated insulation time of the governing way; annex E ends at 60 min", "t_ins",
            std::min(*governing->minutes, kAnnexELimit_min), "min", "the shortest, at most 60 min")
      .table(std::move(layers))
      .table(path_table(paths, governing))
      .bar_chart(path_chart(paths))
      .note(
          "Joints are read from the sheets of the export: k_j = 1 where framing lies behind (E2.6), else the least "
          "value of tables E6 and E7; the board at a joint open by more than 2 mm counts for nothing. The stud's time "
          "is that at which char reaches its back. Integrity is taken as given by insulation with boards fixed as "
          "annex E and "
          "section 7 ask.");
  note_scope(builder, cassette);
}

}  // namespace panel_dossier::fire
