#include "plugins/thermal/junctions/junction_heat.h"

#include <algorithm>
#include <exception>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "plugins/thermal/junctions/conduction_detail_reader.h"
#include "plugins/thermal/junctions/junction_timber.h"

namespace panel_dossier::thermal {

namespace {

void add_once(const std::vector<std::string>& from, std::vector<std::string>& to) {
  for (const std::string& text : from) {
    if (std::find(to.begin(), to.end(), text) == to.end()) to.push_back(text);
  }
}

void add_once(const std::vector<Input>& from, std::vector<Input>& to) {
  for (const Input& input : from) {
    const auto same = [&](const Input& known) {
      return known.name == input.name && describe(known.origin) == describe(input.origin);
    };
    if (std::none_of(to.begin(), to.end(), same)) to.push_back(input);
  }
}

/// The layers and surfaces that the U-value counts.
conduction::CountedLayers counted_layers(const Transmittance& t) {
  conduction::CountedLayers counted;
  for (const ThermalLayer& layer : t.build_up.bridged.layers) counted.count += layer.starts_export_layer ? 1 : 0;
  counted.r_si_m2k_per_w = t.build_up.r_si_m2k_per_w;
  counted.r_se_m2k_per_w = t.build_up.r_se_m2k_per_w;
  return counted;
}

/// Resistance of the air layers as the U-value has them.
conduction::AirResistance air_resistance(const Transmittance& t) {
  return [&t](std::size_t panel_layer) -> std::optional<double> {
    for (const ThermalLayer& known : t.build_up.bridged.layers) {
      if (known.panel_layer == panel_layer) return known.slots.front().resistance_m2k_per_w;
    }
    return std::nullopt;
  };
}

class JunctionHeatReader {
 public:
  JunctionHeatReader(const Panel& panel, const conduction::DetailBuildUp& build_up, const Settings& settings,
                     conduction::DetailSolver& solver, PanelJunctionHeat& heat)
      : panel_(panel), build_up_(build_up), settings_(settings), solver_(solver), heat_(heat) {}

  void add_line(const Junction& junction) {
    JunctionHeat line{junction, std::nullopt, std::nullopt};
    if (!junction.unknown.empty()) {
      add_once({junction.where + ": " + junction.unknown}, heat_.missing);
    } else if (junction.kind && !junction.declared_psi) {
      conduction::DetailBuildUp build_up = build_up_;
      if (junction.opening) read_opening(panel_.openings[*junction.opening], build_up);
      line.detail = conduction::make_detail(*junction.kind, build_up, settings_);
      add_once(line.detail->missing, heat_.missing);
      add_once(line.detail->inputs, heat_.inputs);
      add_once(line.detail->notes, heat_.notes);
      if (line.detail->missing.empty()) solve_line(line);
    }
    heat_.lines.push_back(std::move(line));
  }

  void add_point(const CornerPoint& point) {
    const auto corner = conduction::make_floor_corner(point.floor, build_up_, settings_);
    add_once(corner.missing, heat_.missing);
    if (!corner.missing.empty()) return;
    try {
      heat_.points.push_back({point, conduction::solve_floor_corner(corner, solver_)});
    } catch (const std::exception& error) {
      heat_.missing.push_back(point.where + ": " + error.what());
    }
  }

 private:
  const Panel& panel_;
  const conduction::DetailBuildUp& build_up_;
  const Settings& settings_;
  conduction::DetailSolver& solver_;
  PanelJunctionHeat& heat_;

  void read_opening(const Opening& opening, conduction::DetailBuildUp& build_up) {
    conduction::read_opening(panel_, opening, build_up);
    const auto add = [&](const char* words, const char* symbol, const char* unit, const char* name) {
      const auto value = opening.filling_properties.number("Panel_Window", name);
      if (!value) return;
      const std::string of = " of '" + (opening.filling_name.empty() ? opening.name : opening.filling_name) + "'";
      add_once(std::vector<Input>{{words + of, symbol, value->value, unit, value->origin}}, heat_.inputs);
    };
    add("thermal transmittance of the frame", "U_f", "W/(m²·K)", "FrameTransmittance");
    add("width of the frame", "b_f", "m", "FrameWidth");
  }

  void solve_line(JunctionHeat& line) {
    try {
      line.result = solver_.solve(*line.detail);
    } catch (const std::exception& error) {
      heat_.missing.push_back(line.junction.where + ": " + error.what());
    }
  }
};

}  // namespace

double JunctionHeat::psi_w_per_mk() const {
  if (junction.declared_psi) return junction.declared_psi->value;
  return result ? result->psi_own_w_per_mk : 0.0;
}

double PanelJunctionHeat::lines_w_per_k() const {
  ExactSum sum;
  for (const JunctionHeat& line : lines) sum.add(line.heat_w_per_k());
  return sum.total();
}

double PanelJunctionHeat::points_w_per_k() const {
  ExactSum sum;
  for (const PointHeat& point : points) sum.add(point.heat_w_per_k());
  return sum.total();
}

PanelJunctionHeat junction_heat(const Panel& panel, const Project& project, const Settings& settings,
                                const Tables& tables, const Transmittance& panel_transmittance,
                                conduction::DetailSolver& solver) {
  PanelJunctionHeat heat;
  if (panel_transmittance.build_up.ventilated) {
    heat.missing.emplace_back(
        "details with a slightly ventilated air layer are not covered by EN ISO 10211 as used here; state "
        "Ψ in Panel_Junction");
    return heat;
  }
  const auto reading = conduction::read_detail_build_up(panel, project, counted_layers(panel_transmittance),
                                                        air_resistance(panel_transmittance));
  heat.inputs = reading.inputs;
  heat.missing = reading.missing;
  if (!heat.missing.empty()) return heat;
  const Junctions junctions = find_junctions(panel, project);
  JunctionHeatReader reader(panel, reading.build_up, settings, solver, heat);
  for (const Junction& junction : junctions.lines) reader.add_line(junction);
  for (const CornerPoint& point : junctions.points) reader.add_point(point);
  if (!heat.missing.empty()) return heat;
  FindingBuilder plain_builder(kUValueCheck, panel.global_id);
  const BuildUp plain = read_build_up(without_junction_timber(panel, junctions, reading.build_up), project, settings,
                                      tables, plain_builder);
  if (plain_builder.incomplete()) {
    heat.missing.push_back(plain_builder.not_assessed().reason);
    return heat;
  }
  heat.plain_u_w_per_m2k =
      total_resistance(plain, plain.r_si_m2k_per_w).transmittance() + panel_transmittance.correction.applied_w_per_m2k;
  return heat;
}

}  // namespace panel_dossier::thermal
