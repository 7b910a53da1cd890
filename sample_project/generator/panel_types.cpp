#include "sample_project/generator/panel_types.h"

#include <stdexcept>
#include <string>

namespace sample_export {

namespace {

constexpr double kStudDepth_mm = 220.0;
/// The riser behind this type needs its full depth, so the cassette was thinned to the next smaller stud.
constexpr double kRiserStudDepth_mm = 140.0;

LayerSpec lining() {
  return {LayerRole::lining, "Inner lining", "Finish", "gypsum-f", 15.0};
}

std::vector<LayerSpec> cassette_layers(double stud_depth_mm) {
  return {{LayerRole::vapour_control, "Vapour control layer", "Membrane", "vapour-control", 0.2},
          {LayerRole::inner_sheathing, "Inner sheathing", "Sheathing", "osb", 12.0},
          {LayerRole::cassette, "Studs with stone wool", "Insulation", "stone-wool", stud_depth_mm},
          {LayerRole::outer_sheathing, "Outer sheathing", "Sheathing", "gypsum-h", 12.5},
          {LayerRole::breather, "Breather membrane", "Membrane", "breather", 0.5}};
}

/// Infill: the outer leaf is fixed on site by others.
std::vector<LayerSpec> infill_layers(double stud_depth_mm) {
  std::vector<LayerSpec> layers{lining(), {LayerRole::service_void, "Service void", "Air", "", 38.0}};
  for (const LayerSpec& layer : cassette_layers(stud_depth_mm)) layers.push_back(layer);
  return layers;
}

/// Without a service void: nothing runs in the riser's wall, and each millimetre counts there.
std::vector<LayerSpec> riser_layers() {
  std::vector<LayerSpec> layers{lining()};
  for (const LayerSpec& layer : cassette_layers(kRiserStudDepth_mm)) layers.push_back(layer);
  return layers;
}

std::vector<LayerSpec> oversail_layers() {
  std::vector<LayerSpec> layers = infill_layers(kStudDepth_mm);
  layers.push_back({LayerRole::cavity, "Ventilated cavity", "Air", "", 38.0});
  layers.push_back({LayerRole::cladding, "Cladding", "Finish", "fibre-cement", 8.0});
  return layers;
}

}  // namespace

double PanelType::thickness_mm() const {
  double sum = 0.0;
  for (const LayerSpec& layer : layers) sum += layer.thickness_mm;
  return sum;
}

const std::vector<FillingSpec>& filling_types() {
  static const std::vector<FillingSpec> table = {
      {"WIN-A", "Window 1210 x 1360", false, 1210, 1360, 900, 1.2, 68, {}},
      {"WIN-B", "Feature window 1210 x 1810", false, 1210, 1810, 600, 1.1, 96, GlazingSpec{0.9, 1.2, 0.04, 100}},
      {"DOOR-A", "Insulated door 1010 x 2160", true, 1010, 2160, 0, 1.3, 74, {}}};
  return table;
}

const std::vector<PanelType>& panel_types() {
  static const std::vector<LayerSpec> infill = infill_layers(kStudDepth_mm);
  static const std::vector<LayerSpec> oversail = oversail_layers();
  // key, name, arrangement, layers, filling, fillings a storey, fire class, its report, tested height, width and load,
  // declared U-value
  static const std::vector<PanelType> table = {
      {"INF-S", "Infill panel, solid", "INFILL", infill, "", 0, "EI 60", "FT-101", 3600, 4500, 0, 0.19},
      {"INF-W", "Infill panel with window", "INFILL", infill, "WIN-A", 1, "EI 60", "FT-101", 3600, 4500, 0, 0.22},
      {"INF-D", "Infill panel with door", "INFILL", infill, "DOOR-A", 1, "EI 60", "FT-101", 3600, 4500, 0, 0.22},
      {"INF-R", "Infill panel at riser, solid", "INFILL", riser_layers(), "", 0, "EI 60", "FT-101", 3600, 4500, 0,
       0.30},
      {"OVS-S", "Oversail panel, solid", "OVERSAIL", oversail, "", 0, "EI 60", "FT-102", 3600, 4500, 0, 0.19},
      {"OVS-W", "Oversail panel with windows", "OVERSAIL", oversail, "WIN-A", 2, "EI 60", "FT-102", 3600, 4500, 0,
       0.22},
      {"FEA-T", "Feature panel over three storeys", "OVERSAIL", oversail, "WIN-B", 1, "EI 60", "FT-103", 12000, 3000, 0,
       0.21},
      {"LBW-S", "Load-bearing panel, solid", "LOADBEARING", infill, "", 0, "REI 60", "FT-104", 3600, 3600, 25000, 0.19},
      {"LBW-W", "Load-bearing panel with window", "LOADBEARING", infill, "WIN-A", 1, "REI 60", "FT-104", 3600, 3600,
       25000, 0.22}};
  return table;
}

const PanelType& panel_type(std::string_view key) {
  for (const PanelType& candidate : panel_types()) {
    if (candidate.key == key) return candidate;
  }
  throw std::out_of_range("no panel type '" + std::string(key) + "'");
}

const FillingSpec& filling_type(std::string_view key) {
  for (const FillingSpec& candidate : filling_types()) {
    if (candidate.key == key) return candidate;
  }
  throw std::out_of_range("no filling type '" + std::string(key) + "'");
}

}  // namespace sample_export
