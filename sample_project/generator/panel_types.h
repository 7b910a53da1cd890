// The panel types of the sample project: build-up, openings and what is declared for them.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace sample_export {

/// What stands in a layer of the build-up; decides which parts are made for it.
enum class LayerRole {
  lining,
  service_void,
  vapour_control,
  inner_sheathing,
  cassette,
  outer_sheathing,
  breather,
  cavity,
  cladding
};

struct LayerSpec {
  LayerRole role;
  std::string_view name;
  std::string_view category;      ///< IfcMaterialLayer.Category
  std::string_view material_key;  ///< empty for an air layer
  double thickness_mm;
};

/// What the U-value of a window is calculated from.
struct GlazingSpec {
  double glass_u_w_per_m2k;
  double frame_u_w_per_m2k;
  double edge_psi_w_per_mk;
  double frame_width_mm;
};

/// A window or door kind.
struct FillingSpec {
  std::string_view key;
  std::string_view name;
  bool is_door;
  double width_mm;
  double height_mm;
  double sill_mm;  ///< above the foot of its storey's part of the panel
  double u_value_w_per_m2k;
  double mass_kg;
  std::optional<GlazingSpec> glazing;  ///< none: only the declared U-value is known
};

struct PanelType {
  std::string_view key;
  std::string_view name;
  std::string_view arrangement;   ///< INFILL, OVERSAIL or LOADBEARING
  std::vector<LayerSpec> layers;  ///< from inside to outside
  std::string_view filling_key;   ///< empty: no opening
  int fillings_per_storey;
  std::string_view fire_resistance;  ///< required and, by test, shown
  std::string_view fire_document;
  double tested_height_mm;
  double tested_width_mm;
  double tested_load_n_per_m;  ///< 0: not load-bearing
  double declared_u_value_w_per_m2k;

  bool spans_storeys() const { return key == "FEA-T"; }
  bool load_bearing() const { return arrangement == "LOADBEARING"; }
  double thickness_mm() const;
};

const std::vector<PanelType>& panel_types();
const std::vector<FillingSpec>& filling_types();

/// Throw std::out_of_range when there is no such key.
const PanelType& panel_type(std::string_view key);
const FillingSpec& filling_type(std::string_view key);

}  // namespace sample_export
