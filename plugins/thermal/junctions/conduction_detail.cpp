#include "plugins/thermal/junctions/conduction_detail.h"

#include "plugins/thermal/junctions/conduction_detail_sheet.h"

namespace panel_dossier::thermal::conduction {

std::string_view to_string(DetailKind kind) {
  switch (kind) {
    case DetailKind::panel_joint: return "vertical joint between panels";
    case DetailKind::head_under_slab: return "head under a slab";
    case DetailKind::sole_on_slab: return "sole on a slab edge";
    case DetailKind::external_corner: return "external corner";
    case DetailKind::internal_corner: return "internal corner";
    case DetailKind::window_head: return "window head";
    case DetailKind::window_sill: return "window sill";
    case DetailKind::window_jamb: return "window jamb";
    case DetailKind::floor_edge: return "panel past a floor edge";
    case DetailKind::floor_joint: return "joint in front of a floor edge";
    case DetailKind::parapet: return "parapet";
    case DetailKind::head_under_roof: return "head under a flat roof";
    case DetailKind::edge_at_column: return "edge at a column";
    case DetailKind::corner_column: return "edge at a corner column";
  }
  return "";
}

double DetailBuildUp::thickness_m() const {
  double sum = 0.0;
  for (const DetailLayer& layer : layers) sum += layer.thickness_m;
  return sum;
}

double DetailBuildUp::u_value_w_per_m2k() const {
  double resistance = r_si_m2k_per_w + r_se_m2k_per_w;
  for (const DetailLayer& layer : layers) resistance += layer.thickness_m / layer.conductivity_w_per_mk;
  return 1.0 / resistance;
}

Detail make_detail(DetailKind kind, const DetailBuildUp& build_up, const Settings& settings) {
  Detail detail;
  detail.kind = kind;
  DetailSheet sheet(detail, build_up, settings);
  switch (kind) {
    case DetailKind::panel_joint: draw_panel_joint(sheet); break;
    case DetailKind::head_under_slab: draw_head_under_slab(sheet); break;
    case DetailKind::sole_on_slab: draw_sole_on_slab(sheet); break;
    case DetailKind::external_corner: draw_external_corner(sheet); break;
    case DetailKind::internal_corner: draw_internal_corner(sheet); break;
    case DetailKind::window_head:
      draw_window(sheet, {build_up.opening_head_m, build_up.opening_head},
                  "no lintel or rail touches the head of an opening");
      break;
    case DetailKind::window_sill:
      draw_window(sheet, {build_up.opening_sill_m, build_up.opening_sill},
                  "no rail or blocking touches the sill of an opening");
      break;
    case DetailKind::window_jamb:
      draw_window(sheet, {build_up.opening_jamb_m, build_up.opening_jamb},
                  "no stud or post touches the side of an opening");
      break;
    case DetailKind::floor_edge: draw_floor_edge(sheet); break;
    case DetailKind::floor_joint: draw_floor_joint(sheet); break;
    case DetailKind::parapet: draw_parapet(sheet); break;
    case DetailKind::head_under_roof: draw_head_under_roof(sheet); break;
    case DetailKind::edge_at_column: draw_edge_at_column(sheet); break;
    case DetailKind::corner_column: draw_corner_column(sheet); break;
  }
  sheet.note(
      "The flanks are taken between their framing: U of the flanks is that of the panel without studs. Timber at the "
      "junction is part of Ψ.");
  return detail;
}

}  // namespace panel_dossier::thermal::conduction
