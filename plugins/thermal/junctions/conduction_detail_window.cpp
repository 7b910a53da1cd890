// Sections through the edge of an opening with the frame of its window.
#include "plugins/thermal/junctions/conduction_detail_sheet.h"

namespace panel_dossier::thermal::conduction {

namespace {

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

void draw_window(DetailSheet& sheet, const std::optional<double>& timber_m, const std::string& what_is_missing) {
  const double timber = sheet.timber(timber_m, what_is_missing);
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
  sheet.framing(-timber, 0.0);
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
