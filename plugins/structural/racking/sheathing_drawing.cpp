#include "plugins/structural/racking/sheathing_drawing.h"

#include <string>

#include "core/api/support/fixed_text.h"
#include "core/api/support/geometry.h"
#include "core/api/support/units.h"

namespace panel_dossier::structural {

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
