// Plans: an infill panel against a column, and two against the column at a corner.
#include <algorithm>
#include <string>

#include "plugins/thermal/junctions/conduction_detail_sheet.h"

namespace panel_dossier::thermal::conduction {

namespace {

struct Column {
  double width_m = 0.0;  ///< along the wall
  double depth_m = 0.0;  ///< through the wall
  double conductivity_w_per_mk = 0.0;
};

Column read_column(DetailSheet& sheet) {
  Column column;
  column.width_m = sheet.positive("column_width_m", "width of the column along the wall", "b", "m");
  column.depth_m = sheet.positive("column_depth_m", "depth of the column", "h", "m");
  column.conductivity_w_per_mk =
      sheet.positive("column_conductivity_w_per_mk", "thermal conductivity of the column", "λ", "W/(m·K)");
  return column;
}

double read_edge_stud(DetailSheet& sheet) {
  return sheet.timber(sheet.build_up().edge_stud_m, "no stud or post touches a vertical edge of the panel");
}

/// Both panels against the corner column, the second one as the first seen in the mirror x = y.
void draw_panels(DetailSheet& sheet, double start_m, double outer_m, double stud_m, double gap_m, double filling) {
  const double end = start_m + gap_m + sheet.flank_m();
  const auto both = [&](double along_min, double across_min, double along_max, double across_max, double conductivity,
                        const std::string& name, Hatch hatch) {
    sheet.solid(box_2d(along_min, across_min, along_max, across_max), conductivity, name, hatch);
    sheet.solid(box_2d(across_min, along_min, across_max, along_max), conductivity, name, hatch);
  };
  if (gap_m > 0.0) {
    both(start_m, outer_m, start_m + gap_m, outer_m + sheet.thickness_m(), filling, "joint", Hatch::insulation);
  }
  double inner = outer_m + sheet.thickness_m();
  for (const DetailLayer& layer : sheet.build_up().layers) {
    const double outer = inner - layer.thickness_m;
    both(start_m + gap_m, outer, end, inner, layer.conductivity_w_per_mk, layer.name, layer.hatch);
    if (layer.framed && stud_m > 0.0) {
      both(start_m + gap_m, outer, start_m + gap_m + stud_m, inner, *sheet.build_up().framing_conductivity_w_per_mk,
           "framing", Hatch::timber);
    }
    inner = outer;
  }
}

}  // namespace

void draw_edge_at_column(DetailSheet& sheet) {
  const double stud = read_edge_stud(sheet);
  const Packing packing = read_packing(sheet);
  const Column column = read_column(sheet);
  const StructureEdge edge = read_structure_edge(sheet);
  if (!sheet.complete()) return;
  const double d = sheet.thickness_m();
  const double flank = sheet.flank_m();
  const double middle = column.width_m / 2.0;
  const double edge_x = d - edge.setback_m;
  const double inner_x = edge_x - column.depth_m;
  sheet.panel(-flank, -packing.width_m);
  sheet.framing(-packing.width_m - stud, -packing.width_m);
  if (packing.width_m > 0.0) {
    sheet.solid(box_2d(0.0, -packing.width_m, d, 0.0), packing.conductivity_w_per_mk, "joint", Hatch::insulation);
  }
  sheet.solid(box_2d(inner_x, 0.0, edge_x, middle), column.conductivity_w_per_mk, "column", Hatch::masonry);
  const double room_x = std::min(0.0, inner_x);
  sheet.inside(box_2d(room_x - 1.0, -flank, 0.0, 0.0));
  sheet.inside(box_2d(room_x - 1.0, 0.0, inner_x, middle));
  draw_structure_edge(sheet, Upright(true), edge, packing.width_m, middle);
  sheet.flank("panel", sheet.build_up().u_value_w_per_m2k(), flank + middle, flank + middle, flank - packing.width_m);
  sheet.note(
      "The column is cut in its middle, where no heat crosses when the panels on both sides are alike; Ψ is for this "
      "half. Lengths by internal and external dimensions reach to the middle of the column.");
}

void draw_corner_column(DetailSheet& sheet) {
  const double stud = read_edge_stud(sheet);
  const Packing packing = read_packing(sheet);
  const Column column = read_column(sheet);
  const StructureEdge edge = read_structure_edge(sheet);
  if (!sheet.build_up().framing_conductivity_w_per_mk) sheet.missing("the framing has no thermal conductivity");
  const double inner = sheet.thickness_m() - edge.setback_m;
  if (sheet.complete() && column.width_m < inner) {
    sheet.missing("setting 'thermal.details.column_width_m' is less than the panel reaches behind the column's face");
  }
  if (!sheet.complete()) return;
  const double c = column.width_m;
  const double s = edge.setback_m;
  const double e = edge.insulation.thickness_m;
  const double end = c + packing.width_m + sheet.flank_m();
  // From the corner along either face the insulation ends at the column, or laps over joint and panel before which it
  // stands out.
  const double covered = e > s && edge.lap_m > 0.0 ? c + packing.width_m + edge.lap_m : c;
  const auto insulate = [&](double x_max, double y_max) {
    sheet.solid(box_2d(-e, -e, x_max, y_max), edge.insulation.conductivity_w_per_mk, "edge insulation",
                Hatch::insulation);
  };
  if (e > 0.0) {
    insulate(c, c);
    if (covered > c) {
      insulate(covered, -s);
      insulate(-s, covered);
    }
  }
  sheet.solid(box_2d(0.0, 0.0, c, c), column.conductivity_w_per_mk, "column", Hatch::masonry);
  draw_panels(sheet, c, -s, stud, packing.width_m, packing.conductivity_w_per_mk);
  sheet.inside(box_2d(c, inner, end, end));
  sheet.inside(box_2d(inner, c, c, end));
  const double far = -std::max(s, e) - 2.0;
  sheet.outside(box_2d(far, covered, -s, end));
  sheet.outside(box_2d(covered, far, end, -s));
  sheet.outside(box_2d(far, far, -e, covered));
  sheet.outside(box_2d(-e, far, covered, -e));
  const double u = sheet.build_up().u_value_w_per_m2k();
  for (const char* name : {"panel along x", "panel along y"}) {
    sheet.flank(name, u, end - inner, end + s, sheet.flank_m());
  }
  sheet.note("The column is square; Ψ is for both panels together.");
}

}  // namespace panel_dossier::thermal::conduction
