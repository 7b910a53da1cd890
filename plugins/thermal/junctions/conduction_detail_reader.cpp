#include "plugins/thermal/junctions/conduction_detail_reader.h"

#include <algorithm>
#include <initializer_list>
#include <set>
#include <tuple>
#include <utility>

#include "core/api/support/exact_sum.h"
#include "core/api/support/tolerances.h"
#include "plugins/thermal/transmittance/bridging.h"

namespace panel_dossier::thermal::conduction {

namespace {

bool is_frame_member(const Part& part) {
  return is_framing(part.kind) && part.kind != PartKind::batten;
}

/// Of a layer that is no air.
Hatch hatch_of(const Layer& layer, const Project& project) {
  const Material& material = project.materials[*layer.material];
  if (is_insulating(layer, project)) return Hatch::insulation;
  if (is_membrane(layer)) return Hatch::membrane;
  if (is_metal(material)) return Hatch::metal;
  return material.category == "wood" ? Hatch::timber : Hatch::board;
}

/// λ of a material, each an input once; what is missing is noted.
class Conductivities {
 public:
  Conductivities(const Project& project, DetailBuildUpReading& reading) : project_(project), reading_(reading) {}

  /// `index` is one of the project's materials.
  std::optional<double> of(std::size_t index) {
    const Material& material = project_.materials[index];
    const auto value = material.thermal_conductivity_w_per_mk();
    if (!value || !(value->value > 0.0)) {
      note_missing("material '" + material.name + "' has no Pset_MaterialThermal.ThermalConductivity above 0");
      return std::nullopt;
    }
    if (recorded_.insert(index).second) {
      reading_.inputs.push_back(
          {"thermal conductivity of '" + material.name + "'", "λ", value->value, "W/(m·K)", value->origin});
    }
    return value->value;
  }

  void note_missing(const std::string& what) {
    if (std::find(reading_.missing.begin(), reading_.missing.end(), what) == reading_.missing.end()) {
      reading_.missing.push_back(what);
    }
  }

 private:
  const Project& project_;
  DetailBuildUpReading& reading_;
  std::set<std::size_t> recorded_;
};

std::optional<double> layer_conductivity(const Layer& layer, bool is_air, double thickness_m,
                                         const std::optional<double>& air_resistance, Conductivities& conductivities) {
  if (!is_air) return conductivities.of(*layer.material);
  if (air_resistance && *air_resistance > 0.0) return thickness_m / *air_resistance;
  conductivities.note_missing("air layer '" + layer.name + "' has no known thermal resistance");
  return std::nullopt;
}

void read_layers(const Panel& panel, const Project& project, const CountedLayers& counted,
                 const AirResistance& air_resistance, Conductivities& conductivities, DetailBuildUpReading& reading) {
  reading.build_up.r_si_m2k_per_w = counted.r_si_m2k_per_w;
  reading.build_up.r_se_m2k_per_w = counted.r_se_m2k_per_w;
  for (std::size_t i = 0; i < std::min(counted.count, panel.layers.size()); ++i) {
    const Layer& layer = panel.layers[i];
    const Material* material = material_at(project, layer.material);
    const double thickness = layer.thickness_m.value;
    if (!(thickness > 0.0)) {
      conductivities.note_missing("layer '" + layer.name + "' has no thickness");
      continue;
    }
    if (is_membrane(layer) && material != nullptr && !material->thermal_conductivity_w_per_mk()) continue;
    const bool is_air = is_air_layer(layer, project);
    const auto conductivity = layer_conductivity(layer, is_air, thickness, air_resistance(i), conductivities);
    reading.inputs.push_back({"thickness of '" + layer.name + "'", "d", thickness, "m", layer.thickness_m.origin});
    if (!conductivity) continue;
    const auto parts = parts_in_layer(panel, layer);
    const bool framed =
        std::any_of(parts.begin(), parts.end(), [&](std::size_t part) { return is_frame_member(panel.parts[part]); });
    const Hatch hatch = is_air ? Hatch::air : hatch_of(layer, project);
    reading.build_up.layers.push_back({layer.name, thickness, *conductivity, hatch, framed, layer.y_inside_m});
  }
  if (panel.layers.empty()) conductivities.note_missing("the panel has no layers from a known inside");
}

/// The greatest λ among the framing members: the safe side where they differ.
void read_framing_conductivity(const Panel& panel, const Project& project, Conductivities& conductivities,
                               DetailBuildUp& build_up) {
  for (const Part& part : panel.parts) {
    if (!is_frame_member(part) || material_at(project, part.material) == nullptr) continue;
    const auto conductivity = conductivities.of(*part.material);
    if (!conductivity) continue;
    build_up.framing_conductivity_w_per_mk =
        std::max(*conductivity, build_up.framing_conductivity_w_per_mk.value_or(0.0));
  }
}

/// A timber member, seen along one axis of the panel's face and measured from the edge inwards.
using Span = EdgeMember;

/// Timber that stands behind an edge, member after member.
struct EdgeTimber {
  std::optional<double> depth_m;    ///< none when no member touches the edge
  std::vector<EdgeMember> members;  ///< measured from where the timber starts
};

EdgeTimber timber_behind(std::vector<Span> spans, double first_gap_m) {
  std::sort(spans.begin(), spans.end(), [](const Span& a, const Span& b) {
    return std::tie(a.near_m, a.y_inside_m) < std::tie(b.near_m, b.y_inside_m);
  });
  EdgeTimber timber;
  std::optional<double> start;
  double end = 0.0;
  for (const Span& span : spans) {
    if (span.near_m < -tolerance::kMembrane_m) continue;
    if (span.near_m > (start ? end + tolerance::kMembrane_m : first_gap_m + tolerance::kMembrane_m)) break;
    if (!start) start = span.near_m;
    end = std::max(end, span.far_m);
    timber.members.push_back(span);
  }
  if (!start) return timber;
  // Equal timber elsewhere in the panel must give equal models, whatever its coordinates round to.
  timber.depth_m = rounded_to_millionth(end - *start);
  for (EdgeMember& member : timber.members) {
    member = {rounded_to_millionth(member.near_m - *start), rounded_to_millionth(member.far_m - *start),
              rounded_to_millionth(member.y_inside_m), rounded_to_millionth(member.y_outside_m)};
  }
  return timber;
}

std::optional<double> depth_behind(std::vector<Span> spans, double first_gap_m) {
  return timber_behind(std::move(spans), first_gap_m).depth_m;
}

bool is_one_of(PartKind kind, std::initializer_list<PartKind> kinds) {
  return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
}

bool overlap(double a_min, double a_max, double b_min, double b_max) {
  return std::min(a_max, b_max) - std::max(a_min, b_min) > tolerance::kMembrane_m;
}

/// Horizontal members (`vertical` false) or vertical ones over a range of the other axis, from `edge_m` inwards to
/// smaller (`sign` −1) or greater (+1) coordinates.
std::vector<Span> spans_behind(const Panel& panel, bool vertical, double edge_m, double sign, double other_min_m,
                               double other_max_m) {
  std::vector<Span> spans;
  for (const Part& part : panel.parts) {
    if (!part.bounds) continue;
    const bool fits = vertical ? is_one_of(part.kind, {PartKind::stud, PartKind::post})
                               : is_one_of(part.kind, {PartKind::rail, PartKind::lintel, PartKind::blocking});
    const Vec3& min = part.bounds->min;
    const Vec3& max = part.bounds->max;
    if (!fits || !(vertical ? overlap(min.z, max.z, other_min_m, other_max_m)
                            : overlap(min.x, max.x, other_min_m, other_max_m))) {
      continue;
    }
    const double a = sign * ((vertical ? min.x : min.z) - edge_m);
    const double b = sign * ((vertical ? max.x : max.z) - edge_m);
    spans.push_back({std::min(a, b), std::max(a, b), part.bounds->min.y, part.bounds->max.y});
  }
  return spans;
}

/// The greater of two depths: more timber, the safe side.
std::optional<double> greater(std::optional<double> a, std::optional<double> b) {
  if (!a || !b) return a ? a : b;
  return std::max(*a, *b);
}

void read_edges(const Panel& panel, DetailBuildUp& build_up) {
  const double width = panel.width_m.value;
  const double height = panel.height_m.value;
  build_up.edge_stud_m = greater(depth_behind(spans_behind(panel, true, 0.0, 1.0, 0.0, height), 0.0),
                                 depth_behind(spans_behind(panel, true, width, -1.0, 0.0, height), 0.0));
  build_up.sole_rail_m = depth_behind(spans_behind(panel, false, 0.0, 1.0, 0.0, width), 0.0);
  build_up.head_rail_m = depth_behind(spans_behind(panel, false, height, -1.0, 0.0, width), 0.0);
}

}  // namespace

DetailBuildUpReading read_detail_build_up(const Panel& panel, const Project& project, const CountedLayers& counted,
                                          const AirResistance& air_resistance) {
  DetailBuildUpReading reading;
  Conductivities conductivities(project, reading);
  read_layers(panel, project, counted, air_resistance, conductivities, reading);
  read_framing_conductivity(panel, project, conductivities, reading.build_up);
  read_edges(panel, reading.build_up);
  if (const auto height = panel.properties.number("Panel_Junction", "ParapetHeight")) {
    reading.build_up.parapet_height_m = height->value;
    reading.inputs.push_back(
        {"head of the panel over the surface of the roof", "h", height->value, "m", height->origin});
  }
  return reading;
}

void read_opening(const Panel& panel, const Opening& opening, DetailBuildUp& build_up) {
  const auto timber = [&](bool vertical, double edge, double sign, double other_min, double other_max) {
    return timber_behind(spans_behind(panel, vertical, edge, sign, other_min, other_max), kFittingGap_m);
  };
  EdgeTimber head = timber(false, opening.z_max_m, 1.0, opening.x_min_m, opening.x_max_m);
  EdgeTimber sill = timber(false, opening.z_min_m, -1.0, opening.x_min_m, opening.x_max_m);
  EdgeTimber left = timber(true, opening.x_min_m, -1.0, opening.z_min_m, opening.z_max_m);
  EdgeTimber right = timber(true, opening.x_max_m, 1.0, opening.z_min_m, opening.z_max_m);
  build_up.opening_head_m = head.depth_m;
  build_up.opening_sill_m = sill.depth_m;
  build_up.opening_jamb_m = greater(left.depth_m, right.depth_m);
  build_up.opening_head = std::move(head.members);
  build_up.opening_sill = std::move(sill.members);
  // The side with more timber stands for both, the safe side.
  build_up.opening_jamb = left.depth_m == build_up.opening_jamb_m ? std::move(left.members) : std::move(right.members);
  const auto property = [&](const char* name) -> std::optional<double> {
    const auto value = opening.filling_properties.number("Panel_Window", name);
    return value && value->value > 0.0 ? std::optional(value->value) : std::nullopt;
  };
  build_up.window_frame_u_w_per_m2k = property("FrameTransmittance");
  build_up.window_frame_width_m = property("FrameWidth");
}

}  // namespace panel_dossier::thermal::conduction
