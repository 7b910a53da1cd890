#include "plugins/structural/racking/racking_drawings.h"

#include <algorithm>
#include <string>

#include "core/api/support/geometry.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"

namespace panel_dossier::structural {

namespace {

std::string kn_text(double force_n) {
  return fixed_text(force_n / units::kNewtonPerKilonewton, 2) + " kN";
}

void add_arrow(Drawing& drawing, Vec2 tail, Vec2 tip) {
  drawing.lines.push_back({tail, tip, LineStyle::heavy});
  const Vec2 back{(tail.x - tip.x) / 4.0, (tail.y - tip.y) / 4.0};
  for (const double side : {0.5, -0.5}) {
    const Vec2 barb{tip.x + back.x - side * back.y, tip.y + back.y + side * back.x};
    drawing.lines.push_back({barb, tip, LineStyle::heavy});
  }
}

void add_sheets(Drawing& drawing, const Panel& panel, const RackingDesign& racking) {
  for (const RackingStrip& strip : racking.strips) {
    // Behind a sheet of the stronger face one of the other would hide it; the table holds both.
    if (strip.face != racking.stronger) continue;
    const double spacing_mm = units::millimetres_from_metres(racking.faces[strip.face].spacing_m);
    drawing.polygons.push_back({rectangle(strip.from_m, 0.0, strip.to_m(), panel.height_m.value), Hatch::board,
                                LineStyle::normal, "s = " + fixed_text(spacing_mm, 0) + " mm"});
  }
  for (const Opening& opening : panel.openings) {
    drawing.polygons.push_back({rectangle(opening.x_min_m, opening.z_min_m, opening.x_max_m, opening.z_max_m),
                                Hatch::none, LineStyle::normal, opening.name});
  }
}

}  // namespace

Drawing racking_elevation(const Panel& panel, const RackingDesign& racking) {
  Drawing drawing;
  drawing.title =
      "Racking to the right, from inside: sheets that count hatched; design load at the head, tie-down "
      "(down) and compression (up) at the foot";
  const double width_m = panel.width_m.value;
  const double height_m = panel.height_m.value;
  const double arrow_m = height_m / 8.0;
  drawing.polygons.push_back({rectangle(0.0, 0.0, width_m, height_m), Hatch::none, LineStyle::heavy, {}});
  add_sheets(drawing, panel, racking);
  add_arrow(drawing, {-1.2 * arrow_m, height_m}, {-0.2 * arrow_m, height_m});
  drawing.texts.push_back({{-0.7 * arrow_m, height_m + 0.3 * arrow_m}, kn_text(racking.load_n)});
  for (const Uplift& edge : racking.uplifts) {
    const Vec2 near{edge.x_m, -0.1 * arrow_m};
    const Vec2 far{edge.x_m, -1.1 * arrow_m};
    if (edge.begins && edge.force_n() == 0.0) continue;
    add_arrow(drawing, edge.begins ? near : far, edge.begins ? far : near);
    drawing.texts.push_back(
        {{edge.x_m + 0.15 * arrow_m, -0.7 * arrow_m}, kn_text(edge.begins ? edge.force_n() : edge.pull_n)});
  }
  const double row_m = 1.8 * arrow_m;
  for (const RackingStrip& strip : racking.strips) {
    if (strip.face == racking.stronger)
      drawing.dimensions.push_back({{strip.from_m, 0.0}, {strip.to_m(), 0.0}, -row_m, {}});
  }
  drawing.dimensions.push_back({{width_m, 0.0}, {width_m, height_m}, -arrow_m, {}});
  return drawing;
}

namespace {

std::string in_mm(const std::string& symbol, double length_m) {
  return symbol + " = " + fixed_text(units::millimetres_from_metres(length_m), 1);
}

}  // namespace

Drawing edge_detail(const SheathingFace& face) {
  Drawing drawing;
  const double stud_m = face.joint_stud_width_m;
  const double length_m = 1.6 * face.spacing_m;
  const double sheet_end_m = face.sheets_meet_on_stud ? stud_m / 2.0 : 0.0;
  const double head_m = face.diameter_m;
  drawing.title = face.sheets_meet_on_stud ? "Joint of two sheets on a stud, seen square to the wall, mm"
                                           : "Edge of a sheet on a stud, seen square to the wall, mm";
  drawing.polygons.push_back({rectangle(0.0, 0.0, stud_m, length_m), Hatch::timber, LineStyle::thin, {}});
  drawing.polygons.push_back(
      {rectangle(sheet_end_m, 0.0, 2.2 * stud_m, length_m), Hatch::none, LineStyle::normal, "sheet"});
  drawing.lines.push_back({{stud_m, 0.0}, {stud_m, length_m}, LineStyle::dashed});
  if (face.sheets_meet_on_stud) {
    drawing.polygons.push_back(
        {rectangle(-1.2 * stud_m, 0.0, sheet_end_m, length_m), Hatch::none, LineStyle::normal, "sheet"});
    drawing.lines.push_back({{0.0, 0.0}, {0.0, length_m}, LineStyle::dashed});
  }
  for (int i = 0; i < 2; ++i) {
    const double y_m = (i + 0.3) * face.spacing_m;
    for (const double side : {1.0, -1.0}) {
      if (side < 0.0 && !face.sheets_meet_on_stud) continue;
      const double x_m = sheet_end_m + side * face.edge_distance_m;
      drawing.lines.push_back({{x_m - head_m, y_m}, {x_m + head_m, y_m}, LineStyle::heavy});
      drawing.lines.push_back({{x_m, y_m - head_m}, {x_m, y_m + head_m}, LineStyle::heavy});
    }
  }
  const double fastener_m = sheet_end_m + face.edge_distance_m;
  const double row_m = 0.2 * face.spacing_m;
  drawing.dimensions.push_back(
      {{sheet_end_m, length_m}, {fastener_m, length_m}, row_m, in_mm("e", face.edge_distance_m)});
  drawing.dimensions.push_back(
      {{fastener_m, length_m}, {stud_m, length_m}, 2.5 * row_m, in_mm("a_4", stud_m - fastener_m)});
  drawing.dimensions.push_back({{0.0, 0.0}, {stud_m, 0.0}, -row_m, in_mm("b", stud_m)});
  drawing.dimensions.push_back(
      {{2.2 * stud_m, 0.3 * face.spacing_m}, {2.2 * stud_m, 1.3 * face.spacing_m}, -row_m, in_mm("s", face.spacing_m)});
  return drawing;
}

}  // namespace panel_dossier::structural
