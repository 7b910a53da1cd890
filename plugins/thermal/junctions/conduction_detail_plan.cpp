// Plans: the vertical joint and the corners.
#include <algorithm>
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

}  // namespace panel_dossier::thermal::conduction
