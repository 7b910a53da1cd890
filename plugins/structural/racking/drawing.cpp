#include "plugins/structural/racking/drawing.h"

#include <algorithm>
#include <string>

#include "core/api/support/fixed_text.h"
#include "core/api/support/geometry.h"
#include "core/api/support/units.h"

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

}  // namespace panel_dossier::structural
