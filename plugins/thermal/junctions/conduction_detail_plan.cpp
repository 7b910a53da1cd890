// Plans: the vertical joint, the corners, and infill panels against columns.
#include <algorithm>
#include <string>
#include <vector>

#include "plugins/thermal/junctions/conduction_detail_sheet.h"

namespace panel_dossier::thermal::conduction {

namespace {

const char* const kNoEdgeStud = "no stud or post touches a vertical edge of the panel";

/// A layer by its distances from the corner of an L-shaped wall's concave side.
struct CornerLayer {
  const DetailLayer* layer = nullptr;
  double near_m = 0.0;
  double far_m = 0.0;
};

/// From the concave side outwards: from inside for an external corner, from outside for an internal one.
std::vector<CornerLayer> from_concave_side(const DetailBuildUp& build_up, bool inside_is_concave) {
  std::vector<CornerLayer> result;
  double at = 0.0;
  const auto add = [&](const DetailLayer& layer) {
    result.push_back({&layer, at, at + layer.thickness_m});
    at += layer.thickness_m;
  };
  if (inside_is_concave) {
    std::for_each(build_up.layers.begin(), build_up.layers.end(), add);
  } else {
    std::for_each(build_up.layers.rbegin(), build_up.layers.rend(), add);
  }
  return result;
}

/// The depth that framing fills, from the concave side.
struct FramedZone {
  double near_m = 0.0;
  double far_m = 0.0;
};

FramedZone framed_zone(const std::vector<CornerLayer>& layers) {
  FramedZone zone;
  bool first = true;
  for (const CornerLayer& l : layers) {
    if (!l.layer->framed) continue;
    if (first) zone.near_m = l.near_m;
    zone.far_m = l.far_m;
    first = false;
  }
  return zone;
}

/// The panel along x runs through to its last stud at the far side; the panel along y starts on it.
void draw_corner_studs(DetailSheet& sheet, const std::vector<CornerLayer>& layers, double stud_m, double timber) {
  const FramedZone zone = framed_zone(layers);
  for (const CornerLayer& l : layers) {
    if (!l.layer->framed) continue;
    sheet.solid(box_2d(-zone.far_m, -l.far_m, -zone.far_m + stud_m, -l.near_m), timber, "framing", Hatch::timber);
    sheet.solid(box_2d(-l.far_m, -zone.near_m, -l.near_m, -zone.near_m + stud_m), timber, "framing", Hatch::timber);
  }
}

/// Two walls along the x and y axes; the concave side is the quadrant x > 0, y > 0. Each layer runs round the corner.
void draw_corner(DetailSheet& sheet, bool inside_is_concave) {
  const double stud = sheet.timber(sheet.build_up().edge_stud_m, kNoEdgeStud);
  if (!sheet.build_up().framing_conductivity_w_per_mk) sheet.missing("the framing has no thermal conductivity");
  if (!sheet.complete()) return;
  const double d = sheet.thickness_m();
  const double flank = sheet.flank_m();
  const double timber = *sheet.build_up().framing_conductivity_w_per_mk;
  const std::vector<CornerLayer> layers = from_concave_side(sheet.build_up(), inside_is_concave);
  // The farthest first: what lies nearer to the corner overrides it.
  for (auto l = layers.rbegin(); l != layers.rend(); ++l) {
    sheet.solid(box_2d(-l->far_m, -l->far_m, flank, flank), l->layer->conductivity_w_per_mk, l->layer->name,
                l->layer->hatch);
  }
  draw_corner_studs(sheet, layers, stud, timber);
  const Box3 concave = box_2d(0.0, 0.0, flank, flank);
  const Box3 left = box_2d(-d - 1.0, -d, -d, flank);
  const Box3 below = box_2d(-d - 1.0, -d - 1.0, flank, -d);
  if (inside_is_concave) {
    sheet.inside(concave);
    sheet.outside(left);
    sheet.outside(below);
  } else {
    sheet.outside(concave);
    sheet.inside(left);
    sheet.inside(below);
  }
  const double internal = inside_is_concave ? flank : flank + d;
  const double external = inside_is_concave ? flank + d : flank;
  const double u = sheet.build_up().u_value_w_per_m2k();
  sheet.flank("panel along x", u, internal, external, flank + d);
  sheet.flank("panel along y", u, internal, external, flank);
  sheet.note(
      "Every layer runs round the corner; one panel passes through to its last stud and the other starts against it, "
      "without a gap.");
}

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

void draw_panel_joint(DetailSheet& sheet) {
  const double stud = sheet.timber(sheet.build_up().edge_stud_m, kNoEdgeStud);
  const Packing packing = read_packing(sheet);
  if (!sheet.complete()) return;
  const double d = sheet.thickness_m();
  const double flank = sheet.flank_m();
  const double gap = packing.width_m;
  sheet.panel(-flank, gap + flank);
  sheet.framing(-stud, 0.0);
  sheet.framing(gap, gap + stud);
  if (gap > 0.0) sheet.solid(box_2d(0.0, 0.0, d, gap), packing.conductivity_w_per_mk, "joint", Hatch::insulation);
  sheet.inside(box_2d(-1.0, -flank, 0.0, gap + flank));
  sheet.outside(box_2d(d, -flank, d + 1.0, gap + flank));
  sheet.flank("panels with joint", sheet.build_up().u_value_w_per_m2k(), 2.0 * flank + gap, 2.0 * flank + gap,
              2.0 * flank);
  sheet.note("The joint's filling reaches through the whole thickness of the panels.");
}

void draw_external_corner(DetailSheet& sheet) {
  draw_corner(sheet, true);
}

void draw_internal_corner(DetailSheet& sheet) {
  draw_corner(sheet, false);
}

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
