#include "plugins/thermal/junctions/conduction_detail_sheet.h"

#include <algorithm>
#include <cmath>

namespace panel_dossier::thermal::conduction {

double flank_length_m(double thickness_m) {
  return std::max(1.0, 3.0 * thickness_m);
}

DetailSheet::DetailSheet(Detail& detail, const DetailBuildUp& build_up, const Settings& settings)
    : detail_(detail), build_up_(build_up), settings_(settings) {
  detail_.model.environments = {{"inside", 1.0}, {"outside", 0.0}};
  if (build_up.layers.empty()) missing("the panel has no layers");
}

double DetailSheet::any(const std::string& key, const std::string& name, const std::string& symbol,
                        const std::string& unit) {
  const auto value = known("thermal.details." + key);
  if (!value) return 0.0;
  detail_.inputs.push_back({name, symbol, value->value, unit, value->origin});
  return value->value;
}

bool DetailSheet::given(const std::string& key) const {
  return settings_.number("thermal.details." + key).has_value();
}

double DetailSheet::setting(const std::string& key, const std::string& name, const std::string& symbol,
                            const std::string& unit) {
  const double value = any(key, name, symbol, unit);
  if (value < 0.0) missing("setting 'thermal.details." + key + "' must not be below 0");
  return value;
}

double DetailSheet::positive(const std::string& key, const std::string& name, const std::string& symbol,
                             const std::string& unit) {
  const std::size_t inputs = detail_.inputs.size();
  const double value = any(key, name, symbol, unit);
  const bool read = detail_.inputs.size() > inputs;
  if (read && value <= 0.0) missing("setting 'thermal.details." + key + "' must be above 0");
  return value;
}

std::optional<Sourced<double>> DetailSheet::known(const std::string& full_key) {
  auto value = settings_.number(full_key);
  if (!value) {
    missing("setting '" + full_key + "' is missing");
  } else if (!std::isfinite(value->value)) {
    missing("setting '" + full_key + "' is not a number");
    return std::nullopt;
  }
  return value;
}

double DetailSheet::timber(const std::optional<double>& dimension_m, const std::string& what) {
  if (!dimension_m) missing(what);
  return dimension_m.value_or(0.0);
}

void DetailSheet::panel(double y_min_m, double y_max_m) {
  double x = 0.0;
  for (const DetailLayer& layer : build_up_.layers) {
    solid(box_2d(x, y_min_m, x + layer.thickness_m, y_max_m), layer.conductivity_w_per_mk, layer.name, layer.hatch);
    x += layer.thickness_m;
  }
}

void DetailSheet::framing(double y_min_m, double y_max_m) {
  if (y_max_m <= y_min_m) return;
  if (!build_up_.framing_conductivity_w_per_mk) return missing("the framing has no thermal conductivity");
  double x = 0.0;
  for (const DetailLayer& layer : build_up_.layers) {
    if (layer.framed) {
      solid(box_2d(x, y_min_m, x + layer.thickness_m, y_max_m), *build_up_.framing_conductivity_w_per_mk, "framing",
            Hatch::timber);
    }
    x += layer.thickness_m;
  }
}

void DetailSheet::member(const EdgeMember& member, double y_min_m, double y_max_m) {
  if (!build_up_.framing_conductivity_w_per_mk) return missing("the framing has no thermal conductivity");
  double x = 0.0;
  for (const DetailLayer& layer : build_up_.layers) {
    const double from = std::clamp(member.y_inside_m - layer.y_inside_m, 0.0, layer.thickness_m);
    const double to = std::clamp(member.y_outside_m - layer.y_inside_m, 0.0, layer.thickness_m);
    // A sliver of less than a tenth of a millimetre is rounding of the export and would only cost cells.
    if (layer.framed && to - from > 1e-4) {
      solid(box_2d(x + from, y_min_m, x + to, y_max_m), *build_up_.framing_conductivity_w_per_mk, "framing",
            Hatch::timber);
    }
    x += layer.thickness_m;
  }
}

void DetailSheet::solid(const Box3& box, double conductivity_w_per_mk, const std::string& name, Hatch hatch) {
  detail_.model.solids.push_back({box, conductivity_w_per_mk, name, hatch});
}

void DetailSheet::window_part(const Box3& box, double conductivity_w_per_mk, const std::string& name, Hatch hatch) {
  detail_.model.solids.push_back({box, conductivity_w_per_mk, name, hatch, false});
}

Packing read_packing(DetailSheet& sheet, const char* own_key) {
  Packing packing;
  const bool own = own_key != nullptr && sheet.given(own_key);
  packing.width_m = sheet.setting(own ? own_key : "joint_width_m", "width of the joint", "b", "m");
  if (packing.width_m > 0.0) {
    packing.conductivity_w_per_mk =
        sheet.positive("joint_conductivity_w_per_mk", "thermal conductivity of the joint's filling", "λ", "W/(m·K)");
  }
  return packing;
}

Plate read_plate(DetailSheet& sheet, const std::string& key, const std::string& name) {
  Plate plate;
  plate.thickness_m = sheet.positive(key + "_thickness_m", "thickness of the " + name, "d", "m");
  plate.conductivity_w_per_mk =
      sheet.positive(key + "_conductivity_w_per_mk", "thermal conductivity of the " + name, "λ", "W/(m·K)");
  return plate;
}

StructureEdge read_structure_edge(DetailSheet& sheet) {
  StructureEdge edge;
  edge.setback_m =
      sheet.setting("slab_edge_setback_m", "slab or column edge behind the outer face of the panel", "s", "m");
  edge.insulation.thickness_m =
      sheet.setting("slab_edge_insulation_thickness_m", "thickness of the insulation at that edge", "d", "m");
  if (edge.insulation.thickness_m > 0.0) {
    edge.insulation.conductivity_w_per_mk = sheet.positive("slab_edge_insulation_conductivity_w_per_mk",
                                                           "thermal conductivity of that insulation", "λ", "W/(m·K)");
    if (sheet.given("slab_edge_insulation_lap_m")) {
      edge.lap_m = sheet.setting("slab_edge_insulation_lap_m", "its lap over the panel", "l_lap", "m");
    }
  }
  if (edge.setback_m >= sheet.thickness_m()) {
    sheet.missing("setting 'thermal.details.slab_edge_setback_m' leaves the panel no bearing");
  }
  return edge;
}

void draw_structure_edge(DetailSheet& sheet, const Upright& upright, const StructureEdge& edge, double joint_m,
                         double end_m) {
  const double d = sheet.thickness_m();
  const double edge_x = d - edge.setback_m;
  const double face_x = edge_x + edge.insulation.thickness_m;
  const double lap = face_x > d && edge.lap_m > 0.0 ? joint_m + edge.lap_m : 0.0;
  const auto insulate = [&](double x_min, double y_min, double x_max, double y_max) {
    sheet.solid(upright.box(x_min, y_min, x_max, y_max), edge.insulation.conductivity_w_per_mk, "edge insulation",
                Hatch::insulation);
  };
  if (edge.insulation.thickness_m > 0.0) insulate(edge_x, 0.0, face_x, end_m);
  if (lap > 0.0) insulate(d, -lap, face_x, 0.0);
  sheet.outside(upright.box(d, -sheet.flank_m(), d + 2.0, -lap));
  sheet.outside(upright.box(face_x, -lap, d + 2.0, end_m));
}

}  // namespace panel_dossier::thermal::conduction
