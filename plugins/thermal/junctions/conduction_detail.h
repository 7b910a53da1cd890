// Junction details of panels as two-dimensional models, described without reference to an export.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/drawing.h"
#include "core/api/finding/finding.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/conduction/model.h"

namespace panel_dossier::thermal::conduction {

enum class DetailKind {
  panel_joint,      ///< two panels side by side, plan
  head_under_slab,  ///< infill panel under a slab, section to the middle of the slab
  sole_on_slab,     ///< infill panel on a slab edge, section to the middle of the slab
  external_corner,  ///< plan
  internal_corner,  ///< plan
  window_head,      ///< section
  window_sill,      ///< section
  window_jamb,      ///< plan
  floor_edge,       ///< panel that passes a floor edge on the outside, section
  floor_joint,      ///< two panels that meet in front of a floor edge, section
  parapet,          ///< panel that rises past a flat roof, section
  head_under_roof,  ///< infill panel under an insulated flat roof, section
  edge_at_column,   ///< infill panel against a column, plan to the middle of the column
  corner_column,    ///< two infill panels against the column at a corner, plan
};

inline constexpr std::array kDetailKinds{
    DetailKind::panel_joint,     DetailKind::head_under_slab, DetailKind::sole_on_slab, DetailKind::external_corner,
    DetailKind::internal_corner, DetailKind::window_head,     DetailKind::window_sill,  DetailKind::window_jamb,
    DetailKind::floor_edge,      DetailKind::floor_joint,     DetailKind::parapet,      DetailKind::head_under_roof,
    DetailKind::edge_at_column,  DetailKind::corner_column};

/// In words, for headings: `head under a slab`.
std::string_view to_string(DetailKind kind);

struct DetailLayer {
  std::string name;
  double thickness_m = 0.0;
  double conductivity_w_per_mk = 0.0;  ///< of the layer between its framing; d/R of an air layer
  Hatch hatch = Hatch::none;
  bool framed = false;      ///< studs and rails reach through it
  double y_inside_m = 0.0;  ///< of its inner face in the panel's frame; only where members stand by their own place
};

/// A member at the edge of an opening as it stands in the panel's frame, in section.
struct EdgeMember {
  double near_m = 0.0;  ///< from the edge of the opening, into the panel
  double far_m = 0.0;
  double y_inside_m = 0.0;
  double y_outside_m = 0.0;

  bool operator==(const EdgeMember&) const = default;
};

/// A panel as its junctions see it. A dimension that is none makes the details that need it unknown.
struct DetailBuildUp {
  std::vector<DetailLayer> layers;  ///< from inside to outside, or to a well-ventilated cavity
  double r_si_m2k_per_w = 0.13;
  double r_se_m2k_per_w = 0.04;
  std::optional<double> framing_conductivity_w_per_mk;
  std::optional<double> edge_stud_m;     ///< width of the timber at a vertical edge
  std::optional<double> head_rail_m;     ///< height of the timber at the head
  std::optional<double> sole_rail_m;     ///< height of the timber at the sole
  std::optional<double> opening_head_m;  ///< height of the timber over an opening
  std::optional<double> opening_sill_m;  ///< height of the timber under an opening
  std::optional<double> opening_jamb_m;  ///< width of the timber beside an opening
  /// The members that make up that timber, each in its own place; empty: it fills the framed layers.
  std::vector<EdgeMember> opening_head;
  std::vector<EdgeMember> opening_sill;
  std::vector<EdgeMember> opening_jamb;
  /// Of the frame in that opening, where the export gives them; else the settings do.
  std::optional<double> window_frame_u_w_per_m2k;
  std::optional<double> window_frame_width_m;
  std::optional<double> parapet_height_m;  ///< Panel_Junction.ParapetHeight; else the setting

  double thickness_m() const;
  /// 1/(R_si + Σ d/λ + R_se) of the panel between its framing.
  double u_value_w_per_m2k() const;
};

/// A plane building element that meets in a detail, as deep as the two-dimensional model.
struct Flank {
  std::string name;
  double u_value_w_per_m2k = 0.0;
  double internal_length_m = 0.0;
  double external_length_m = 0.0;
  double own_length_m = 0.0;  ///< by the panel's own width and height; of a roof or frame the same as internal
};

/// Environments of every detail: air at 1 °C inside and 0 °C outside, so that equal details are equal in any climate.
inline constexpr std::size_t kInside = 0;
inline constexpr std::size_t kOutside = 1;

struct Detail {
  DetailKind kind = DetailKind::panel_joint;
  Model model;
  std::vector<Flank> flanks;
  std::vector<Input> inputs;         ///< dimensions that are not in the build-up, with the settings they come from
  std::vector<std::string> notes;    ///< what the model assumes
  std::vector<std::string> missing;  ///< settings or parts that are absent or unusable; the model is then of no use
};

/// Draws up the detail. What the export does not hold comes from the settings `thermal.details.…`:
/// `joint_width_m`, `joint_conductivity_w_per_mk` (all but windows and corners), `head_joint_width_m` (head) and
/// `slab_gap_m` (floor edge, parapet) where they differ from it; `slab_thickness_m`,
/// `slab_conductivity_w_per_mk` (head, sole, floor edge and joint), `slab_edge_setback_m`,
/// `slab_edge_insulation_thickness_m`, `slab_edge_insulation_lap_m` (none when left out),
/// `slab_edge_insulation_conductivity_w_per_mk` (head, sole, head under a roof and columns; a thickness of 0 is a bare
/// edge and needs no conductivity); `column_width_m`, `column_depth_m`, `column_conductivity_w_per_mk` (columns);
/// `window_frame_depth_m`, `window_frame_width_m`, `window_frame_u_w_per_m2k`, `window_frame_offset_m`, `window_gap_m`,
/// `window_gap_conductivity_w_per_mk` (windows); `roof_slab_thickness_m`, `roof_slab_conductivity_w_per_mk`,
/// `roof_insulation_thickness_m`, `roof_insulation_conductivity_w_per_mk` (parapet, head under a roof),
/// `parapet_height_m` (parapet: the panel's head over the surface of the roof insulation, below 0 where it ends lower).
/// Absent ones are named in `missing`.
Detail make_detail(DetailKind kind, const DetailBuildUp& build_up, const Settings& settings);

}  // namespace panel_dossier::thermal::conduction
