// Sections: head, sole, floor edge and parapet.
#include "plugins/thermal/conduction_detail_sheet.h"

namespace panel_dossier::thermal::conduction {

namespace {

const char* const kNoHeadRail = "no rail touches the head of the panel";
const char* const kNoSoleRail = "no rail touches the sole of the panel";

/// A range along y, turned over for a sole: `at(y)` measures from the slab's face into the panel when y is below 0.
class Upright {
 public:
  explicit Upright(bool slab_above) : sign_(slab_above ? 1.0 : -1.0) {}
  Box3 box(double x_min, double y_min, double x_max, double y_max) const {
    return sign_ > 0.0 ? box_2d(x_min, y_min, x_max, y_max) : box_2d(x_min, -y_max, x_max, -y_min);
  }
  double low(double y_min, double y_max) const { return sign_ > 0.0 ? y_min : -y_max; }
  double high(double y_min, double y_max) const { return sign_ > 0.0 ? y_max : -y_min; }

 private:
  double sign_;
};

/// Infill panel between slabs: the slab's face is y = 0, the cut plane lies in the slab's middle.
void draw_infill(DetailSheet& sheet, bool slab_above, double rail) {
  const Packing packing = read_packing(sheet);
  const Plate slab = read_plate(sheet, "slab", "slab");
  const StructureEdge edge = read_structure_edge(sheet);
  if (!sheet.complete()) return;
  const Upright upright(slab_above);
  const double d = sheet.thickness_m();
  const double flank = sheet.flank_m();
  const double middle = slab.thickness_m / 2.0;
  const double edge_x = d - edge.setback_m;
  const double slab_end = -flank_length_m(slab.thickness_m);
  const double face_x = edge_x + edge.insulation.thickness_m;
  sheet.panel(upright.low(-flank, -packing.width_m), upright.high(-flank, -packing.width_m));
  sheet.framing(upright.low(-packing.width_m - rail, -packing.width_m),
                upright.high(-packing.width_m - rail, -packing.width_m));
  if (packing.width_m > 0.0) {
    sheet.solid(upright.box(0.0, -packing.width_m, d, 0.0), packing.conductivity_w_per_mk, "joint", Hatch::insulation);
  }
  sheet.solid(upright.box(slab_end, 0.0, edge_x, middle), slab.conductivity_w_per_mk, "slab", Hatch::masonry);
  if (edge.insulation.thickness_m > 0.0) {
    sheet.solid(upright.box(edge_x, 0.0, face_x, middle), edge.insulation.conductivity_w_per_mk, "slab edge insulation",
                Hatch::insulation);
  }
  sheet.inside(upright.box(slab_end, -flank, 0.0, 0.0));
  sheet.outside(upright.box(d, -flank, d + 2.0, 0.0));
  sheet.outside(upright.box(face_x, 0.0, d + 2.0, middle));
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
                  insulation.thickness_m / insulation.conductivity_w_per_mk + build_up.r_se_m2k_per_w);
  }
};

Roof read_roof(DetailSheet& sheet) {
  return {read_plate(sheet, "roof_slab", "roof slab"), read_plate(sheet, "roof_insulation", "roof insulation")};
}

}  // namespace

void draw_head_under_slab(DetailSheet& sheet) {
  draw_infill(sheet, true, sheet.timber(sheet.build_up().head_rail_m, kNoHeadRail));
}

void draw_sole_on_slab(DetailSheet& sheet) {
  draw_infill(sheet, false, sheet.timber(sheet.build_up().sole_rail_m, kNoSoleRail));
}

void draw_floor_edge(DetailSheet& sheet) {
  const Packing packing = read_packing(sheet);
  const Plate slab = read_plate(sheet, "slab", "slab");
  if (!sheet.complete()) return;
  const double flank = sheet.flank_m();
  const double t = slab.thickness_m;
  sheet.panel(-flank, t + flank);
  draw_floor_behind(sheet, slab, packing);
  sheet.flank("panel", sheet.build_up().u_value_w_per_m2k(), 2.0 * flank, 2.0 * flank + t, 2.0 * flank + t);
  sheet.note("The panel runs past the floor without a joint; brackets are not included.");
}

void draw_floor_joint(DetailSheet& sheet) {
  const Packing packing = read_packing(sheet);
  const Plate slab = read_plate(sheet, "slab", "slab");
  const double head = sheet.timber(sheet.build_up().head_rail_m, kNoHeadRail);
  const double sole = sheet.timber(sheet.build_up().sole_rail_m, kNoSoleRail);
  if (!sheet.complete()) return;
  const double flank = sheet.flank_m();
  const double t = slab.thickness_m;
  const double below = (t - packing.width_m) / 2.0;
  const double above = (t + packing.width_m) / 2.0;
  sheet.panel(-flank, t + flank);
  sheet.framing(below - head, below);
  sheet.framing(above, above + sole);
  if (packing.width_m > 0.0) {
    sheet.solid(box_2d(0.0, below, sheet.thickness_m(), above), packing.conductivity_w_per_mk, "joint",
                Hatch::insulation);
  }
  draw_floor_behind(sheet, slab, packing);
  sheet.flank("panels", sheet.build_up().u_value_w_per_m2k(), 2.0 * flank, 2.0 * flank + t,
              2.0 * flank + t - packing.width_m);
  sheet.note("The panels meet in front of the middle of the slab; brackets are not included.");
}

void draw_head_under_roof(DetailSheet& sheet) {
  const double rail = sheet.timber(sheet.build_up().head_rail_m, kNoHeadRail);
  const Packing packing = read_packing(sheet);
  const Roof roof = read_roof(sheet);
  const StructureEdge edge = read_structure_edge(sheet);
  if (!sheet.complete()) return;
  const double d = sheet.thickness_m();
  const double flank = sheet.flank_m();
  const double top = roof.thickness_m();
  const double roof_end = -flank_length_m(top);
  const double edge_x = d - edge.setback_m;
  const double face_x = edge_x + edge.insulation.thickness_m;
  sheet.panel(-flank, -packing.width_m);
  sheet.framing(-packing.width_m - rail, -packing.width_m);
  if (packing.width_m > 0.0) {
    sheet.solid(box_2d(0.0, -packing.width_m, d, 0.0), packing.conductivity_w_per_mk, "joint", Hatch::insulation);
  }
  sheet.solid(box_2d(roof_end, 0.0, edge_x, roof.slab.thickness_m), roof.slab.conductivity_w_per_mk, "roof slab",
              Hatch::masonry);
  sheet.solid(box_2d(roof_end, roof.slab.thickness_m, edge_x, top), roof.insulation.conductivity_w_per_mk,
              "roof insulation", Hatch::insulation);
  if (edge.insulation.thickness_m > 0.0) {
    sheet.solid(box_2d(edge_x, 0.0, face_x, top), edge.insulation.conductivity_w_per_mk, "slab edge insulation",
                Hatch::insulation);
  }
  sheet.inside(box_2d(roof_end, -flank, 0.0, 0.0));
  sheet.outside(box_2d(d, -flank, d + 2.0, 0.0));
  sheet.outside(box_2d(face_x, 0.0, d + 2.0, top));
  sheet.outside(box_2d(roof_end, top, d + 2.0, top + 1.0));
  sheet.flank("panel", sheet.build_up().u_value_w_per_m2k(), flank, flank + top, flank - packing.width_m);
  sheet.flank("roof", roof.u_value_w_per_m2k(sheet.build_up()), -roof_end, d - roof_end, -roof_end);
  sheet.note(
      "The roof ends at the slab's edge, without an upstand. The ceiling has the wall's internal surface resistance, "
      "in "
      "the model as in the roof's U.");
}

void draw_parapet(DetailSheet& sheet) {
  const Packing packing = read_packing(sheet);
  const Roof roof = read_roof(sheet);
  const double height =
      sheet.any("parapet_height_m", "head of the panel over the surface of the roof insulation", "h", "m");
  const double rail = sheet.timber(sheet.build_up().head_rail_m, kNoHeadRail);
  if (sheet.complete() && height < -roof.insulation.thickness_m) {
    sheet.missing("setting 'thermal.details.parapet_height_m' ends the panel below the top of the roof slab");
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
  sheet.inside(box_2d(roof_end, -flank, 0.0, 0.0));
  sheet.outside(box_2d(d, -flank, d + 1.0, top + 1.0));
  sheet.outside(box_2d(roof_end, surface, 0.0, top + 1.0));
  sheet.outside(box_2d(0.0, top, d, top + 1.0));
  sheet.flank("panel", sheet.build_up().u_value_w_per_m2k(), flank, flank + surface, flank + top);
  sheet.flank("roof", roof.u_value_w_per_m2k(sheet.build_up()), -roof_end, d - roof_end, -roof_end);
  sheet.note(
      "The panel runs past the roof slab without a joint, its head rail at the top of the parapet. The ceiling has the "
      "wall's internal surface resistance, in the model as in the roof's U.");
}

}  // namespace panel_dossier::thermal::conduction
