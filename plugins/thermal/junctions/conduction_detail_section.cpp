// Sections: head, sole, floor edge and parapet, and the edge of an opening with the frame of its window.
#include <algorithm>

#include "plugins/thermal/junctions/conduction_detail_sheet.h"

namespace panel_dossier::thermal::conduction {

namespace {

const char* const kNoHeadRail = "no rail touches the head of the panel";
const char* const kNoSoleRail = "no rail touches the sole of the panel";

/// Infill panel between slabs: the slab's face is y = 0, the cut plane lies in the slab's middle.
void draw_infill(DetailSheet& sheet, bool slab_above, double rail) {
  const Packing packing = read_packing(sheet, slab_above ? "head_joint_width_m" : nullptr);
  const Plate slab = read_plate(sheet, "slab", "slab");
  const StructureEdge edge = read_structure_edge(sheet);
  if (!sheet.complete()) return;
  const Upright upright(slab_above);
  const double d = sheet.thickness_m();
  const double flank = sheet.flank_m();
  const double middle = slab.thickness_m / 2.0;
  const double edge_x = d - edge.setback_m;
  const double slab_end = -flank_length_m(slab.thickness_m);
  sheet.panel(upright.low(-flank, -packing.width_m), upright.high(-flank, -packing.width_m));
  sheet.framing(upright.low(-packing.width_m - rail, -packing.width_m),
                upright.high(-packing.width_m - rail, -packing.width_m));
  if (packing.width_m > 0.0) {
    sheet.solid(upright.box(0.0, -packing.width_m, d, 0.0), packing.conductivity_w_per_mk, "joint", Hatch::insulation);
  }
  sheet.solid(upright.box(slab_end, 0.0, edge_x, middle), slab.conductivity_w_per_mk, "slab", Hatch::masonry);
  sheet.inside(upright.box(slab_end, -flank, 0.0, 0.0));
  draw_structure_edge(sheet, upright, edge, packing.width_m, middle);
  sheet.flank("panel", sheet.build_up().u_value_w_per_m2k(), flank, flank + middle, flank - packing.width_m);
  sheet.note(
      "The slab is cut in its middle, where no heat crosses when the rooms and panels above and below are alike; Ψ is "
      "for this half. External lengths reach to the middle of the slab.");
}

/// Slab from y = 0 up behind panels that pass it, with the packing between, and the air on both sides.
void draw_floor_behind(DetailSheet& sheet, const Plate& slab, const Packing& packing) {
  const double d = sheet.thickness_m();
  const double flank = sheet.flank_m();
  const double t = slab.thickness_m;
  const double slab_end = -flank_length_m(t);
  sheet.solid(box_2d(slab_end, 0.0, -packing.width_m, t), slab.conductivity_w_per_mk, "slab", Hatch::masonry);
  if (packing.width_m > 0.0) {
    sheet.solid(box_2d(-packing.width_m, 0.0, 0.0, t), packing.conductivity_w_per_mk, "joint", Hatch::insulation);
  }
  sheet.inside(box_2d(slab_end, -flank, 0.0, 0.0));
  sheet.inside(box_2d(slab_end, t, 0.0, t + flank));
  sheet.outside(box_2d(d, -flank, d + 1.0, t + flank));
}

struct Roof {
  Plate slab;
  Plate insulation;

  double thickness_m() const { return slab.thickness_m + insulation.thickness_m; }
  double u_value_w_per_m2k(const DetailBuildUp& build_up) const {
    return 1.0 / (build_up.r_si_m2k_per_w + slab.thickness_m / slab.conductivity_w_per_mk +
                  insulation.thickness_m / insulation.conductivity_w_per_mk + kOpenAirResistance_m2k_per_w);
  }
};

Roof read_roof(DetailSheet& sheet) {
  return {read_plate(sheet, "roof_slab", "roof slab"), read_plate(sheet, "roof_insulation", "roof insulation")};
}

struct WindowFrame {
  double depth_m = 0.0;
  double width_m = 0.0;
  double u_value_w_per_m2k = 0.0;
  double offset_m = 0.0;  ///< of its inner face from the inner face of the panel

  /// λ of a solid block of this depth with the frame's U (EN ISO 10077-1:2017 with R_si 0.13 and R_se 0.04).
  double equivalent_conductivity_w_per_mk() const { return depth_m / (1.0 / u_value_w_per_m2k - 0.13 - 0.04); }
};

WindowFrame read_frame(DetailSheet& sheet) {
  WindowFrame frame;
  frame.depth_m = sheet.positive("window_frame_depth_m", "depth of the window frame", "d_f", "m");
  const DetailBuildUp& known = sheet.build_up();
  frame.width_m = known.window_frame_width_m
                      ? *known.window_frame_width_m
                      : sheet.positive("window_frame_width_m", "width of the window frame", "b_f", "m");
  frame.u_value_w_per_m2k =
      known.window_frame_u_w_per_m2k
          ? *known.window_frame_u_w_per_m2k
          : sheet.positive("window_frame_u_w_per_m2k", "thermal transmittance of the window frame", "U_f", "W/(m²·K)");
  frame.offset_m =
      sheet.setting("window_frame_offset_m", "inner face of the frame behind the inner face of the panel", "e", "m");
  if (!sheet.complete()) return frame;
  if (1.0 / frame.u_value_w_per_m2k <= 0.17) {
    sheet.missing(
        "the frame's U (Panel_Window.FrameTransmittance, else thermal.details.window_frame_u_w_per_m2k) is more than "
        "the surfaces alone let through");
  }
  if (frame.offset_m + frame.depth_m > sheet.thickness_m()) {
    sheet.missing(
        "settings 'thermal.details.window_frame_offset_m' and 'window_frame_depth_m' place the frame outside "
        "the panel");
  }
  return frame;
}

}  // namespace

void draw_head_under_slab(DetailSheet& sheet) {
  draw_infill(sheet, true, sheet.timber(sheet.build_up().head_rail_m, kNoHeadRail));
}

void draw_sole_on_slab(DetailSheet& sheet) {
  draw_infill(sheet, false, sheet.timber(sheet.build_up().sole_rail_m, kNoSoleRail));
}

void draw_floor_edge(DetailSheet& sheet) {
  const Packing gap = read_packing(sheet, "slab_gap_m");
  const Plate slab = read_plate(sheet, "slab", "slab");
  if (!sheet.complete()) return;
  const double flank = sheet.flank_m();
  const double t = slab.thickness_m;
  sheet.panel(-flank, t + flank);
  draw_floor_behind(sheet, slab, gap);
  sheet.flank("panel", sheet.build_up().u_value_w_per_m2k(), 2.0 * flank, 2.0 * flank + t, 2.0 * flank + t);
  sheet.note("The panel runs past the floor without a joint; brackets are not included.");
}

void draw_floor_joint(DetailSheet& sheet) {
  const Packing packing = read_packing(sheet);
  const Packing gap = read_packing(sheet, "slab_gap_m");
  const Plate slab = read_plate(sheet, "slab", "slab");
  const double head = sheet.timber(sheet.build_up().head_rail_m, kNoHeadRail);
  const double sole = sheet.timber(sheet.build_up().sole_rail_m, kNoSoleRail);
  if (!sheet.complete()) return;
  const double flank = sheet.flank_m();
  const double t = slab.thickness_m;
  const double below = t - packing.width_m;
  const double above = t;
  sheet.panel(-flank, t + flank);
  sheet.framing(below - head, below);
  sheet.framing(above, above + sole);
  if (packing.width_m > 0.0) {
    sheet.solid(box_2d(0.0, below, sheet.thickness_m(), above), packing.conductivity_w_per_mk, "joint",
                Hatch::insulation);
  }
  draw_floor_behind(sheet, slab, gap);
  sheet.flank("panels", sheet.build_up().u_value_w_per_m2k(), 2.0 * flank, 2.0 * flank + t,
              2.0 * flank + t - packing.width_m);
  sheet.note("The panels meet in front of the slab's edge, the upper one at floor level; brackets are not included.");
}

void draw_head_under_roof(DetailSheet& sheet) {
  const double rail = sheet.timber(sheet.build_up().head_rail_m, kNoHeadRail);
  const Packing packing = read_packing(sheet, "head_joint_width_m");
  const Roof roof = read_roof(sheet);
  const StructureEdge edge = read_structure_edge(sheet);
  if (!sheet.complete()) return;
  const double d = sheet.thickness_m();
  const double flank = sheet.flank_m();
  const double top = roof.thickness_m();
  const double roof_end = -flank_length_m(top);
  const double edge_x = d - edge.setback_m;
  sheet.panel(-flank, -packing.width_m);
  sheet.framing(-packing.width_m - rail, -packing.width_m);
  if (packing.width_m > 0.0) {
    sheet.solid(box_2d(0.0, -packing.width_m, d, 0.0), packing.conductivity_w_per_mk, "joint", Hatch::insulation);
  }
  sheet.solid(box_2d(roof_end, 0.0, edge_x, roof.slab.thickness_m), roof.slab.conductivity_w_per_mk, "roof slab",
              Hatch::masonry);
  sheet.solid(box_2d(roof_end, roof.slab.thickness_m, edge_x, top), roof.insulation.conductivity_w_per_mk,
              "roof insulation", Hatch::insulation);
  sheet.inside(box_2d(roof_end, -flank, 0.0, 0.0));
  draw_structure_edge(sheet, Upright(true), edge, packing.width_m, top);
  sheet.open_air(box_2d(roof_end, top, d + 2.0, top + 1.0));
  sheet.flank("panel", sheet.build_up().u_value_w_per_m2k(), flank, flank + top, flank - packing.width_m);
  sheet.flank("roof", roof.u_value_w_per_m2k(sheet.build_up()), -roof_end, d - roof_end, -roof_end);
  sheet.note(
      "The roof ends at the slab's edge, without an upstand. The ceiling has the wall's internal surface resistance, "
      "in "
      "the model as in the roof's U.");
}

void draw_parapet(DetailSheet& sheet) {
  const Packing packing = read_packing(sheet, "slab_gap_m");
  const Roof roof = read_roof(sheet);
  const auto& stated = sheet.build_up().parapet_height_m;
  const double height =
      stated ? *stated
             : sheet.any("parapet_height_m", "head of the panel over the surface of the roof insulation", "h", "m");
  const double rail = sheet.timber(sheet.build_up().head_rail_m, kNoHeadRail);
  if (sheet.complete() && height < -roof.insulation.thickness_m) {
    sheet.missing(
        "setting 'thermal.details.parapet_height_m' or Panel_Junction.ParapetHeight ends the panel below the top of "
        "the roof slab");
  }
  if (!sheet.complete()) return;
  const double d = sheet.thickness_m();
  const double flank = sheet.flank_m();
  const double surface = roof.thickness_m();
  const double roof_end = -flank_length_m(surface);
  const double top = surface + height;
  sheet.panel(-flank, top);
  sheet.framing(top - rail, top);
  sheet.solid(box_2d(roof_end, 0.0, -packing.width_m, roof.slab.thickness_m), roof.slab.conductivity_w_per_mk,
              "roof slab", Hatch::masonry);
  if (packing.width_m > 0.0) {
    sheet.solid(box_2d(-packing.width_m, 0.0, 0.0, roof.slab.thickness_m), packing.conductivity_w_per_mk, "joint",
                Hatch::insulation);
  }
  sheet.solid(box_2d(roof_end, roof.slab.thickness_m, 0.0, surface), roof.insulation.conductivity_w_per_mk,
              "roof insulation", Hatch::insulation);
  if (top < surface) {
    sheet.solid(box_2d(0.0, top, d, surface), roof.insulation.conductivity_w_per_mk, "roof insulation",
                Hatch::insulation);
  }
  sheet.inside(box_2d(roof_end, -flank, 0.0, 0.0));
  const double crown = std::max(top, surface);
  sheet.outside(box_2d(d, -flank, d + 1.0, crown));
  sheet.open_air(box_2d(roof_end, surface, 0.0, crown + 1.0));
  sheet.open_air(box_2d(0.0, crown, d + 1.0, crown + 1.0));
  sheet.flank("panel", sheet.build_up().u_value_w_per_m2k(), flank, flank + surface, flank + top);
  sheet.flank("roof", roof.u_value_w_per_m2k(sheet.build_up()), -roof_end, d - roof_end, -roof_end);
  sheet.note(
      "The panel runs past the roof slab without a joint, its head rail at the top of the parapet; where it ends below "
      "the "
      "roof's surface the insulation runs over its head. The ceiling has the "
      "wall's internal surface resistance, in the model as in the roof's U.");
}

void draw_window(DetailSheet& sheet, const OpeningTimber& timber, const std::string& what_is_missing) {
  const double depth = sheet.timber(timber.depth_m, what_is_missing);
  const WindowFrame frame = read_frame(sheet);
  const double gap = sheet.setting("window_gap_m", "gap between panel and window frame", "b", "m");
  const double filling = gap > 0.0 ? sheet.positive("window_gap_conductivity_w_per_mk",
                                                    "thermal conductivity of the gap's filling", "λ", "W/(m·K)")
                                   : 0.0;
  if (!sheet.complete()) return;
  const double d = sheet.thickness_m();
  const double flank = sheet.flank_m();
  const double inner = frame.offset_m;
  const double outer = frame.offset_m + frame.depth_m;
  const double end = gap + frame.width_m;
  sheet.panel(-flank, 0.0);
  if (timber.members.empty()) sheet.framing(-depth, 0.0);
  for (const EdgeMember& member : timber.members) sheet.member(member, -member.far_m, -member.near_m);
  if (gap > 0.0) sheet.window_part(box_2d(inner, 0.0, outer, gap), filling, "gap", Hatch::insulation);
  sheet.window_part(box_2d(inner, gap, outer, end), frame.equivalent_conductivity_w_per_mk(), "window frame",
                    Hatch::timber);
  sheet.inside(box_2d(-1.0, -flank, 0.0, end));
  if (inner > 0.0) sheet.inside(box_2d(0.0, 0.0, inner, end));
  sheet.outside(box_2d(d, -flank, d + 1.0, end));
  if (outer < d) sheet.outside(box_2d(outer, 0.0, d, end));
  sheet.flank("panel", sheet.build_up().u_value_w_per_m2k(), flank, flank, flank);
  sheet.flank("window frame", frame.u_value_w_per_m2k, frame.width_m, frame.width_m, frame.width_m + gap);
  sheet.note(
      "The frame is a solid block of the frame's U between its surfaces; no heat crosses its edge to the glass. Panel "
      "and frame are measured to the edge of the opening and without the gap, which is part of Ψ; by the panel's own "
      "dimensions the frame fills the opening. f_Rsi is that of the panel and the reveal; the frame and the gap at "
      "it are not assessed.");
}

}  // namespace panel_dossier::thermal::conduction
