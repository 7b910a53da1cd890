// The sheet on which a junction detail is drawn up: panels, slabs and air by their measures, settings by their keys.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "plugins/thermal/junctions/conduction_detail.h"

namespace panel_dossier::thermal::conduction {

/// R_se in open air, m²·K/W (EN ISO 6946:2017, table 7, from memory).
inline constexpr double kOpenAirResistance_m2k_per_w = 0.04;

/// From a junction to the cut plane of a flank: at least 1 m and three times the flank's thickness
/// (EN ISO 10211:2017, position of cut planes, from memory).
double flank_length_m(double thickness_m);

/// x runs through the panel from its inner face (0) to its outer face, y along it.
/// Not thread-safe; one sheet belongs to one detail.
class DetailSheet {
 public:
  /// All must outlive the sheet.
  DetailSheet(Detail& detail, const DetailBuildUp& build_up, const Settings& settings);

  /// The setting `thermal.details.KEY`, recorded as an input. Absent, not finite or below 0: noted as missing.
  double setting(const std::string& key, const std::string& name, const std::string& symbol, const std::string& unit);
  /// As `setting`, and 0 is refused too.
  double positive(const std::string& key, const std::string& name, const std::string& symbol, const std::string& unit);
  bool given(const std::string& key) const;
  /// As `setting`, and values below 0 are taken too.
  double any(const std::string& key, const std::string& name, const std::string& symbol, const std::string& unit);
  /// A dimension of the build-up; none is noted as missing under `what`.
  double timber(const std::optional<double>& dimension_m, const std::string& what);

  bool complete() const { return detail_.missing.empty(); }
  void missing(std::string what) { detail_.missing.push_back(std::move(what)); }
  void note(std::string text) { detail_.notes.push_back(std::move(text)); }

  const DetailBuildUp& build_up() const { return build_up_; }
  double thickness_m() const { return build_up_.thickness_m(); }
  /// How far the panel runs to its cut plane.
  double flank_m() const { return flank_length_m(thickness_m()); }

  /// All layers of the panel over y.
  void panel(double y_min_m, double y_max_m);
  /// Timber in the framed layers over y.
  void framing(double y_min_m, double y_max_m);
  /// Timber of a member where it stands: in the framed layers, over y.
  void member(const EdgeMember& member, double y_min_m, double y_max_m);
  void solid(const Box3& box, double conductivity_w_per_mk, const std::string& name, Hatch hatch);
  /// A solid whose surface temperature is not assessed.
  void window_part(const Box3& box, double conductivity_w_per_mk, const std::string& name, Hatch hatch);
  void inside(const Box3& box) { air(kInside, box, build_up_.r_si_m2k_per_w); }
  void outside(const Box3& box) { air(kOutside, box, build_up_.r_se_m2k_per_w); }
  /// Open air over a roof or a parapet, whatever stands before the panel.
  void open_air(const Box3& box) { air(kOutside, box, kOpenAirResistance_m2k_per_w); }
  void flank(const std::string& name, double u_value_w_per_m2k, double internal_m, double external_m, double own_m) {
    detail_.flanks.push_back({name, u_value_w_per_m2k, internal_m, external_m, own_m});
  }

 private:
  Detail& detail_;
  const DetailBuildUp& build_up_;
  const Settings& settings_;

  std::optional<Sourced<double>> known(const std::string& full_key);
  void air(std::size_t environment, const Box3& box, double surface_resistance_m2k_per_w) {
    detail_.model.environment_boxes.push_back({environment, box, surface_resistance_m2k_per_w});
  }
};

/// Filling of a joint; a width of 0 is no joint and needs no conductivity.
struct Packing {
  double width_m = 0.0;
  double conductivity_w_per_mk = 0.0;
};
/// Its width from the setting `own_key` where that is given, else from `joint_width_m`.
Packing read_packing(DetailSheet& sheet, const char* own_key = nullptr);

/// A solid plate of concrete or insulation.
struct Plate {
  double thickness_m = 0.0;
  double conductivity_w_per_mk = 0.0;
};
/// From the settings KEY_thickness_m and KEY_conductivity_w_per_mk, both above 0.
Plate read_plate(DetailSheet& sheet, const std::string& key, const std::string& name);

/// Outer face of a slab or column behind the outer face of the panel, and what insulates it.
struct StructureEdge {
  double setback_m = 0.0;
  Plate insulation;    ///< a thickness of 0: bare
  double lap_m = 0.0;  ///< how far the insulation laps over the panel where it stands out before it
};
/// Noted as missing where the panel would find no bearing.
StructureEdge read_structure_edge(DetailSheet& sheet);

/// A range along y, turned over for a sole: y is measured from the structure's face and is below 0 in the panel.
class Upright {
 public:
  explicit Upright(bool structure_above) : sign_(structure_above ? 1.0 : -1.0) {}
  Box3 box(double x_min, double y_min, double x_max, double y_max) const {
    return sign_ > 0.0 ? box_2d(x_min, y_min, x_max, y_max) : box_2d(x_min, -y_max, x_max, -y_min);
  }
  double low(double y_min, double y_max) const { return sign_ > 0.0 ? y_min : -y_max; }
  double high(double y_min, double y_max) const { return sign_ > 0.0 ? y_max : -y_min; }

 private:
  double sign_;
};

/// Insulation before a slab or column whose face is y = 0 and that reaches to `end_m`, its lap over joint and panel,
/// and the outside air before all of them from the panel's cut plane on.
void draw_structure_edge(DetailSheet& sheet, const Upright& upright, const StructureEdge& edge, double joint_m,
                         double end_m);

/// One function a group of details; each adds to the sheet of a detail of its kinds.
void draw_panel_joint(DetailSheet& sheet);
void draw_external_corner(DetailSheet& sheet);
void draw_internal_corner(DetailSheet& sheet);
void draw_head_under_slab(DetailSheet& sheet);
void draw_sole_on_slab(DetailSheet& sheet);
void draw_floor_edge(DetailSheet& sheet);
void draw_floor_joint(DetailSheet& sheet);
void draw_head_under_roof(DetailSheet& sheet);
void draw_edge_at_column(DetailSheet& sheet);
void draw_corner_column(DetailSheet& sheet);
void draw_parapet(DetailSheet& sheet);
/// Timber at the edge of an opening: its height or width, and its members where they are known.
struct OpeningTimber {
  const std::optional<double>& depth_m;
  const std::vector<EdgeMember>& members;
};
void draw_window(DetailSheet& sheet, const OpeningTimber& timber, const std::string& what_is_missing);

}  // namespace panel_dossier::thermal::conduction
