// Sections: head, sole, floor edge and parapet.
#include "plugins/thermal/conduction_detail_sheet.h"

namespace panel_dossier::thermal::conduction {

namespace {

struct Packing {
  double width_m = 0.0;
  double conductivity_w_per_mk = 0.0;
};

Packing read_packing(DetailSheet& sheet) {
  Packing packing;
  packing.width_m = sheet.setting("joint_width_m", "width of the joint", "b", "m");
  if (packing.width_m > 0.0) {
    packing.conductivity_w_per_mk =
        sheet.positive("joint_conductivity_w_per_mk", "thermal conductivity of the joint's filling", "λ", "W/(m·K)");
  }
  return packing;
}

struct Plate {
  double thickness_m = 0.0;
  double conductivity_w_per_mk = 0.0;
};

Plate read_plate(DetailSheet& sheet, const std::string& key, const std::string& name) {
  Plate plate;
  plate.thickness_m = sheet.positive(key + "_thickness_m", "thickness of the " + name, "d", "m");
  plate.conductivity_w_per_mk =
      sheet.positive(key + "_conductivity_w_per_mk", "thermal conductivity of the " + name, "λ", "W/(m·K)");
  return plate;
}

struct SlabEdge {
  double setback_m = 0.0;
  Plate insulation;
};

SlabEdge read_slab_edge(DetailSheet& sheet) {
  SlabEdge edge;
  edge.setback_m = sheet.setting("slab_edge_setback_m", "slab edge behind the outer face of the panel", "s", "m");
  edge.insulation.thickness_m =
      sheet.setting("slab_edge_insulation_thickness_m", "thickness of the insulation at the slab edge", "d", "m");
  if (edge.insulation.thickness_m > 0.0) {
    edge.insulation.conductivity_w_per_mk =
        sheet.positive("slab_edge_insulation_conductivity_w_per_mk",
                       "thermal conductivity of the insulation at the slab edge", "λ", "W/(m·K)");
  }
  if (edge.setback_m >= sheet.thickness_m()) {
    sheet.missing("setting 'thermal.details.slab_edge_setback_m' leaves the panel no bearing on the slab");
  }
  return edge;
}

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
  const SlabEdge edge = read_slab_edge(sheet);
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
  sheet.flank("panel", sheet.build_up().u_value_w_per_m2k(), flank, flank + middle);
  sheet.note(
      "The slab is cut in its middle, where no heat crosses when the rooms and panels above and below are alike; Ψ is "
      "for this half. External lengths reach to the middle of the slab.");
}

}  // namespace

void draw_head_under_slab(DetailSheet& sheet) {
  draw_infill(sheet, true, sheet.timber(sheet.build_up().head_rail_m, "no rail touches the head of the panel"));
}

void draw_sole_on_slab(DetailSheet& sheet) {
  draw_infill(sheet, false, sheet.timber(sheet.build_up().sole_rail_m, "no rail touches the sole of the panel"));
}

void draw_floor_edge(DetailSheet& sheet) {
  const Packing packing = read_packing(sheet);
  const Plate slab = read_plate(sheet, "slab", "slab");
  if (!sheet.complete()) return;
  const double d = sheet.thickness_m();
  const double flank = sheet.flank_m();
  const double t = slab.thickness_m;
  const double slab_end = -flank_length_m(t);
  sheet.panel(-flank, t + flank);
  sheet.solid(box_2d(slab_end, 0.0, -packing.width_m, t), slab.conductivity_w_per_mk, "slab", Hatch::masonry);
  if (packing.width_m > 0.0) {
    sheet.solid(box_2d(-packing.width_m, 0.0, 0.0, t), packing.conductivity_w_per_mk, "joint", Hatch::insulation);
  }
  sheet.inside(box_2d(slab_end, -flank, 0.0, 0.0));
  sheet.inside(box_2d(slab_end, t, 0.0, t + flank));
  sheet.outside(box_2d(d, -flank, d + 1.0, t + flank));
  sheet.flank("panel", sheet.build_up().u_value_w_per_m2k(), 2.0 * flank, 2.0 * flank + t);
  sheet.note("The panel runs past the floor without a joint; brackets are not included.");
}

void draw_parapet(DetailSheet& sheet) {
  const Packing packing = read_packing(sheet);
  const Plate slab = read_plate(sheet, "roof_slab", "roof slab");
  const Plate insulation = read_plate(sheet, "roof_insulation", "roof insulation");
  const double height = sheet.positive("parapet_height_m", "height of the parapet over the roof insulation", "h", "m");
  const double rail = sheet.timber(sheet.build_up().head_rail_m, "no rail touches the head of the panel");
  if (!sheet.complete()) return;
  const double d = sheet.thickness_m();
  const double flank = sheet.flank_m();
  const double roof = slab.thickness_m + insulation.thickness_m;
  const double roof_end = -flank_length_m(roof);
  const double top = roof + height;
  sheet.panel(-flank, top);
  sheet.framing(top - rail, top);
  sheet.solid(box_2d(roof_end, 0.0, -packing.width_m, slab.thickness_m), slab.conductivity_w_per_mk, "roof slab",
              Hatch::masonry);
  if (packing.width_m > 0.0) {
    sheet.solid(box_2d(-packing.width_m, 0.0, 0.0, slab.thickness_m), packing.conductivity_w_per_mk, "joint",
                Hatch::insulation);
  }
  sheet.solid(box_2d(roof_end, slab.thickness_m, 0.0, roof), insulation.conductivity_w_per_mk, "roof insulation",
              Hatch::insulation);
  sheet.inside(box_2d(roof_end, -flank, 0.0, 0.0));
  sheet.outside(box_2d(d, -flank, d + 1.0, top + 1.0));
  sheet.outside(box_2d(roof_end, roof, 0.0, top + 1.0));
  sheet.outside(box_2d(0.0, top, d, top + 1.0));
  const double roof_resistance = sheet.build_up().r_si_m2k_per_w + slab.thickness_m / slab.conductivity_w_per_mk +
                                 insulation.thickness_m / insulation.conductivity_w_per_mk +
                                 sheet.build_up().r_se_m2k_per_w;
  sheet.flank("panel", sheet.build_up().u_value_w_per_m2k(), flank, flank + roof);
  sheet.flank("roof", 1.0 / roof_resistance, -roof_end, d - roof_end);
  sheet.note(
      "The panel runs past the roof slab without a joint, its head rail at the top of the parapet. The ceiling has the "
      "wall's internal surface resistance, in the model as in the roof's U.");
}

}  // namespace panel_dossier::thermal::conduction
