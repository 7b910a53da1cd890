#include "plugins/thermal/junctions/junction_heat.h"

#include <algorithm>
#include <exception>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/tolerances.h"
#include "plugins/thermal/junctions/conduction_detail_reader.h"
#include "plugins/thermal/junctions/slab_claims.h"
#include "plugins/thermal/transmittance/bridging.h"

namespace panel_dossier::thermal {

namespace {

/// Where members of one direction belong to a junction, on the panel's face.
struct Zone {
  bool vertical = false;  ///< studs and posts; else rails, lintels and blocking
  double x_min = 0.0;
  double x_max = 0.0;
  double z_min = 0.0;
  double z_max = 0.0;
};

bool runs(const Part& part, bool vertical) {
  if (part.kind == PartKind::stud || part.kind == PartKind::post) return vertical;
  const bool level = part.kind == PartKind::rail || part.kind == PartKind::lintel || part.kind == PartKind::blocking;
  return level && !vertical;
}

void add_opening_zones(const Panel& panel, const Opening& opening, std::vector<Zone>& zones) {
  conduction::DetailBuildUp timber;
  conduction::read_opening(panel, opening, timber);
  const auto reach = [](const std::optional<double>& depth) {
    return depth.value_or(0.0) + kFittingGap_m + tolerance::kModelling_m;
  };
  const double jamb = reach(timber.opening_jamb_m);
  zones.push_back(
      {false, opening.x_min_m, opening.x_max_m, opening.z_max_m, opening.z_max_m + reach(timber.opening_head_m)});
  zones.push_back(
      {false, opening.x_min_m, opening.x_max_m, opening.z_min_m - reach(timber.opening_sill_m), opening.z_min_m});
  zones.push_back({true, opening.x_min_m - jamb, opening.x_min_m, opening.z_min_m, opening.z_max_m});
  zones.push_back({true, opening.x_max_m, opening.x_max_m + jamb, opening.z_min_m, opening.z_max_m});
}

std::vector<Zone> zones_of(const Panel& panel, const Junctions& junctions, const conduction::DetailBuildUp& timber) {
  const double width = panel.width_m.value;
  const double height = panel.height_m.value;
  const double stud = timber.edge_stud_m.value_or(0.0) + tolerance::kModelling_m;
  std::vector<Zone> zones;
  for (const Junction& junction : junctions.lines) {
    if (!junction.kind && !junction.declared_psi) continue;
    switch (junction.edge) {
      case Edge::head:
        zones.push_back(
            {false, 0.0, width, height - timber.head_rail_m.value_or(0.0) - tolerance::kModelling_m, height});
        break;
      case Edge::sole:
        zones.push_back({false, 0.0, width, 0.0, timber.sole_rail_m.value_or(0.0) + tolerance::kModelling_m});
        break;
      case Edge::left: zones.push_back({true, 0.0, stud, 0.0, height}); break;
      case Edge::right: zones.push_back({true, width - stud, width, 0.0, height}); break;
      default: break;
    }
  }
  for (const Opening& opening : panel.openings) {
    if (!opening.filling_entity.empty()) add_opening_zones(panel, opening, zones);
  }
  return zones;
}

/// What is left of the box outside the zone: at most four boxes.
std::vector<Box3> cut(const Box3& box, const Zone& zone) {
  const double x_min = std::max(box.min.x, zone.x_min);
  const double x_max = std::min(box.max.x, zone.x_max);
  const double z_min = std::max(box.min.z, zone.z_min);
  const double z_max = std::min(box.max.z, zone.z_max);
  if (x_max - x_min <= tolerance::kModelling_m || z_max - z_min <= tolerance::kModelling_m) return {box};
  std::vector<Box3> rest;
  const auto keep = [&](double left, double low, double right, double high) {
    if (right - left <= tolerance::kModelling_m || high - low <= tolerance::kModelling_m) return;
    rest.push_back({{left, box.min.y, low}, {right, box.max.y, high}});
  };
  keep(box.min.x, box.min.z, x_min, box.max.z);
  keep(x_max, box.min.z, box.max.x, box.max.z);
  keep(x_min, box.min.z, x_max, z_min);
  keep(x_min, z_max, x_max, box.max.z);
  return rest;
}

}  // namespace

Panel without_junction_timber(const Panel& panel, const Junctions& junctions, const conduction::DetailBuildUp& timber) {
  const std::vector<Zone> zones = zones_of(panel, junctions, timber);
  Panel result = panel;
  result.parts.clear();
  for (const Part& part : panel.parts) {
    std::vector<Box3> boxes;
    if (part.bounds) boxes.push_back(*part.bounds);
    bool untouched = true;
    for (const Zone& zone : zones) {
      if (!runs(part, zone.vertical)) continue;
      std::vector<Box3> rest;
      for (const Box3& box : boxes) {
        const auto pieces = cut(box, zone);
        rest.insert(rest.end(), pieces.begin(), pieces.end());
        untouched = untouched && pieces.size() == 1 && pieces.front().size().x == box.size().x &&
                    pieces.front().size().z == box.size().z;
      }
      boxes = std::move(rest);
    }
    if (untouched) {
      result.parts.push_back(part);
      continue;
    }
    // A part that is wholly cut away stays as an empty box: the panel's framing is still a known one.
    const Box3& whole = *part.bounds;
    if (boxes.empty()) boxes.push_back({whole.min, {whole.min.x, whole.max.y, whole.min.z}});
    for (const Box3& box : boxes) {
      Part piece = part;
      piece.bounds = box;
      piece.solid.reset();
      result.parts.push_back(std::move(piece));
    }
  }
  return result;
}

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
  JunctionHeatReader(const Panel& panel, const Project& project, const conduction::DetailBuildUp& build_up,
                     const Settings& settings, conduction::DetailSolver& solver, PanelJunctionHeat& heat)
      : panel_(panel), project_(project), build_up_(build_up), settings_(settings), solver_(solver), heat_(heat) {}

  void add_line(const Junction& junction) {
    JunctionHeat line{junction, std::nullopt, std::nullopt};
    if (!junction.unknown.empty()) {
      add_once({junction.where + ": " + junction.unknown}, heat_.missing);
    } else if (junction.kind && !junction.declared_psi) {
      conduction::DetailBuildUp build_up = build_up_;
      if (junction.opening) read_opening(panel_.openings[*junction.opening], build_up);
      line.detail = conduction::make_detail(*junction.kind, build_up, settings_);
      add_once(line.detail->missing, heat_.missing);
      add_once(slab_contradictions(*line.detail, panel_, project_), heat_.missing);
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
  const Project& project_;
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
                                conduction::DetailSolver& solver, JunctionsAsked asked) {
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
  JunctionHeatReader reader(panel, project, reading.build_up, settings, solver, heat);
  for (const Junction& junction : junctions.lines) reader.add_line(junction);
  if (asked == JunctionsAsked::lines_and_points) {
    for (const CornerPoint& point : junctions.points) reader.add_point(point);
  }
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
