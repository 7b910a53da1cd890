#include "plugins/thermal/transmittance/build_up.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <utility>

#include "core/api/support/units.h"
#include "core/api/support/words.h"

namespace panel_dossier::thermal {

namespace {

double upper_limit(const std::vector<HeatPath>& paths, double r_si, double r_se) {
  double conductance = 0.0;
  for (const HeatPath& path : paths) {
    const double along = std::accumulate(path.resistances.begin(), path.resistances.end(), r_si + r_se);
    conductance += path.fraction / along;
  }
  return 1.0 / conductance;
}

double layer_resistance(const std::vector<HeatPath>& paths, std::size_t layer) {
  double conductance = 0.0;
  for (const HeatPath& path : paths) {
    // A film of no resistance leaves nothing to share out between the paths.
    if (path.resistances[layer] <= 0.0) return 0.0;
    conductance += path.fraction / path.resistances[layer];
  }
  return 1.0 / conductance;
}

}  // namespace

CombinedResistance combine(const std::vector<HeatPath>& paths, double r_si, double r_se) {
  CombinedResistance result;
  result.upper = upper_limit(paths, r_si, r_se);
  for (std::size_t layer = 0; layer < paths.front().resistances.size(); ++layer) {
    result.layer_resistances.push_back(layer_resistance(paths, layer));
  }
  result.lower = std::accumulate(result.layer_resistances.begin(), result.layer_resistances.end(), r_si + r_se);
  result.total = (result.upper + result.lower) / 2.0;
  return result;
}

namespace {

void read_surfaces(const Tables& tables, BuildUp& build_up, FindingBuilder& builder) {
  const std::string inside = "inside_" + std::string(to_string(build_up.heat_flow));
  const auto r_si = builder.positive("internal surface resistance", "R_si", "m²·K/W",
                                     tables.surface_resistances.number(inside, "resistance_m2k_per_w"),
                                     "surface_resistances.csv has no row '" + inside + "'");
  // Behind a well-ventilated cavity the air is still: EN ISO 6946:2017, 6.9.4.
  const std::string outside = build_up.ends_at_cavity ? inside : "outside";
  const auto r_se = builder.positive("external surface resistance", "R_se", "m²·K/W",
                                     tables.surface_resistances.number(outside, "resistance_m2k_per_w"),
                                     "surface_resistances.csv has no row '" + outside + "'");
  build_up.r_si_m2k_per_w = r_si.value_or(0.0);
  build_up.r_se_m2k_per_w = r_se.value_or(0.0);
}

void read_ventilated_case(BuildUp& build_up, FindingBuilder& builder) {
  const auto& layers = build_up.bridged.layers;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    if (layers[i].ventilated_share <= 0.0) continue;
    if (i == 0 || build_up.ventilated) {
      builder.missing("slightly ventilated air layer '" + layers[i].name +
                      (i == 0 ? "' has no layer inside it" : "' is not the only one; the standard covers one"));
      continue;
    }
    // Outside the layer taken as well ventilated the air is still, so R_se = R_si: EN ISO 6946:2017, 6.9.4.
    build_up.ventilated = VentilatedCase{i, build_up.r_si_m2k_per_w, layers[i].ventilated_share};
    builder.step(
        "share of the well-ventilated case for '" + layers[i].name + "': (A_v − 500) / 1000 with its openings in mm²/m",
        "s", layers[i].ventilated_share, "");
    builder.note("Air layer '" + layers[i].name +
                 "' is slightly ventilated: the total resistance lies between those with the layer unventilated and "
                 "well ventilated (EN ISO 6946:2017, 6.9.3). Sections and temperature profile show it unventilated.");
  }
}

bool has_face(const Panel& panel, FindingBuilder& builder) {
  const auto width = builder.positive("width of the panel", "b", "m", panel.width_m, {});
  const auto height = builder.positive("height of the panel", "h", "m", panel.height_m, {});
  if (!width || !height) return false;
  for (std::size_t i = 0; i < panel.openings.size(); ++i) {
    const Opening& opening = panel.openings[i];
    builder.positive("area of opening '" + opening.name + "'", numbered_symbol("A_o", i, panel.openings.size()), "m²",
                     Sourced<double>{opening.area_m2(), opening.origin}, {});
  }
  if (panel.net_area_m2() > 0.0) return true;
  builder.missing("the openings leave no area of the panel");
  return false;
}

bool has_layers(const Panel& panel, FindingBuilder& builder) {
  if (!panel.layers.empty()) return true;
  builder.missing(panel.outside_known
                      ? "the panel has no material layers (IfcMaterialLayerSetUsage)"
                      : "it is not known which face is outside (Panel_Construction.FirstLayerFace), so the layers "
                        "cannot be put in order");
  return false;
}

void note_scope(const BuildUp& build_up, bool measured, FindingBuilder& builder) {
  if (build_up.ends_at_cavity) {
    builder.note(
        "The ventilated air layer is taken as well ventilated: it and everything outside it are disregarded, and the "
        "external surface resistance is that of still air (EN ISO 6946:2017, 6.9.4).");
  }
  if (measured) {
    builder.note(
        "Shares of framing are measured from the parts on the face of the panel, openings left out and overlaps "
        "counted "
        "once; sections through several bridged layers come from the same measurement. Timber around openings "
        "(lintels, "
        "and members within 25 mm of an opening) is included; take it out where a linear transmittance of the opening "
        "already holds it.");
  } else {
    builder.note("The framing of this panel is unknown; its share is an assumption from the project settings.");
  }
}

}  // namespace

BuildUp read_build_up(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                      FindingBuilder& builder) {
  BuildUp result;
  const bool face = has_face(panel, builder);
  if (!has_layers(panel, builder) || !face) return result;
  result.heat_flow = heat_flow_through(panel);
  ConductivityReader conductivities(project, builder);
  const PlainLayers plain =
      read_plain_layers(panel, project, settings, tables, result.heat_flow, conductivities, builder);
  result.ends_at_cavity = plain.ends_at_cavity;
  if (plain.layers.empty()) builder.missing("no layer stands inside the ventilated air layer");
  read_surfaces(tables, result, builder);
  const bool measured = !panel.parts.empty();
  result.bridged = measured ? measure_bridging(panel, project, plain, conductivities, builder)
                            : assume_bridging(panel, settings, plain, builder);
  read_ventilated_case(result, builder);
  note_scope(result, measured, builder);
  return result;
}

std::vector<HeatPath> heat_paths(const BridgedLayers& bridged) {
  std::vector<HeatPath> paths;
  for (const SectionArea& section : bridged.sections) {
    HeatPath path;
    path.fraction = section.area_m2 / bridged.net_area_m2;
    for (std::size_t layer = 0; layer < bridged.layers.size(); ++layer) {
      path.resistances.push_back(bridged.layers[layer].slots[section.slots[layer]].resistance_m2k_per_w);
    }
    paths.push_back(std::move(path));
  }
  return paths;
}

double resistance_along(const HeatPath& path, double r_si, double r_se) {
  return std::accumulate(path.resistances.begin(), path.resistances.end(), r_si + r_se);
}

std::size_t least_insulated(const std::vector<HeatPath>& paths) {
  const auto least = std::min_element(paths.begin(), paths.end(), [](const HeatPath& a, const HeatPath& b) {
    return resistance_along(a, 0.0, 0.0) < resistance_along(b, 0.0, 0.0);
  });
  return static_cast<std::size_t>(least - paths.begin());
}

CombinedResistance total_resistance(const BuildUp& build_up, double r_si) {
  auto paths = heat_paths(build_up.bridged);
  CombinedResistance result = combine(paths, r_si, build_up.r_se_m2k_per_w);
  if (!build_up.ventilated) return result;
  const VentilatedCase& ventilated = *build_up.ventilated;
  for (HeatPath& path : paths) path.resistances.resize(ventilated.inner_layers);
  const CombinedResistance inner = combine(paths, r_si, ventilated.r_se_m2k_per_w);
  result.upper += ventilated.share * (inner.upper - result.upper);
  result.lower += ventilated.share * (inner.lower - result.lower);
  result.total += ventilated.share * (inner.total - result.total);
  return result;
}

std::string section_name(const BridgedLayers& bridged, const SectionArea& section) {
  std::string name;
  const auto& layers = bridged.layers;
  for (std::size_t first = 0; first < layers.size();) {
    // All that one layer of the export was split into is named once for each material.
    std::size_t end = first;
    while (end < layers.size() && layers[end].panel_layer == layers[first].panel_layer) ++end;
    std::map<std::pair<std::string, std::optional<std::size_t>>, std::size_t> depths;
    for (std::size_t layer = first; layer < end; ++layer) {
      const LayerSlot& slot = layers[layer].slots[section.slots[layer]];
      if (section.slots[layer] != 0) ++depths[{slot.material, slot.material_index}];
    }
    for (const auto& [material, count] : depths) {
      name += (name.empty() ? "" : " + ") + material.first + " in " + layers[first].export_name;
      if (count < end - first) name += " (part of its depth)";
    }
    first = end;
  }
  return name.empty() ? "main materials" : name;
}

namespace {

Curve temperature_curve(const BridgedLayers& bridged, std::size_t section, const std::vector<double>& temperatures_c) {
  Curve curve;
  curve.name = section_name(bridged, bridged.sections[section]);
  double depth_mm = 0.0;
  // The first and the last temperature are those of the air, which has no depth in the build-up.
  curve.points.push_back({depth_mm, temperatures_c[1]});
  for (std::size_t layer = 0; layer < bridged.layers.size(); ++layer) {
    depth_mm += units::millimetres_from_metres(bridged.layers[layer].thickness_m);
    curve.points.push_back({depth_mm, temperatures_c[layer + 2]});
  }
  return curve;
}

}  // namespace

std::vector<double> interface_temperatures_c(const std::vector<double>& resistances, double r_si, double r_se,
                                             double internal_c, double external_c) {
  const double total = std::accumulate(resistances.begin(), resistances.end(), r_si + r_se);
  const double heat_flux_w_per_m2 = (internal_c - external_c) / total;
  std::vector<double> temperatures{internal_c, internal_c - heat_flux_w_per_m2 * r_si};
  for (const double resistance : resistances)
    temperatures.push_back(temperatures.back() - heat_flux_w_per_m2 * resistance);
  temperatures.push_back(external_c);
  return temperatures;
}

Series temperature_series(const BridgedLayers& bridged, double r_si, double r_se, double internal_c,
                          double external_c) {
  Series series;
  series.title = "Temperature through the build-up, steady state, heat at right angles to the face";
  series.x_label = "depth from the inner face";
  series.x_unit = "mm";
  series.y_label = "temperature";
  series.y_unit = "°C";
  const auto paths = heat_paths(bridged);
  const auto add = [&](std::size_t section) {
    series.curves.push_back(temperature_curve(
        bridged, section, interface_temperatures_c(paths[section].resistances, r_si, r_se, internal_c, external_c)));
  };
  add(0);
  if (const std::size_t least = least_insulated(paths); least != 0) add(least);
  return series;
}

}  // namespace panel_dossier::thermal
