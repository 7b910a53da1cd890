#include "plugins/thermal/junctions/floor_corner.h"

#include <stdexcept>
#include <utility>

#include "plugins/thermal/junctions/conduction_detail_sheet.h"

namespace panel_dossier::thermal::conduction {

namespace {

/// Coarser than in two dimensions: the rules of refinement decide in both.
SolveOptions options_3d() {
  SolveOptions options;
  options.grid = {0.020, 3.0, 0.400};
  return options;
}

Box3 between(const Box3& plan, double z_min_m, double z_max_m) {
  return {{plan.min.x, plan.min.y, z_min_m}, {plan.max.x, plan.max.y, z_max_m}};
}

/// The room lies at x > 0, y > 0; the floor's lower face is z = 0.
class FloorCornerModel {
 public:
  FloorCornerModel(FloorCorner& corner, const DetailBuildUp& build_up, const Settings& settings)
      : corner_(corner),
        build_up_(build_up),
        flank_(flank_length_m(build_up.thickness_m())),
        slab_(settings.number("thermal.details.slab_thickness_m")->value),
        slab_conductivity_(settings.number("thermal.details.slab_conductivity_w_per_mk")->value),
        joint_(setting_or(settings, "thermal.details.joint_width_m", 0.0)),
        gap_(setting_or(settings, "thermal.details.slab_gap_m", joint_)),
        packing_conductivity_(setting_or(settings, "thermal.details.joint_conductivity_w_per_mk", 1.0)) {}

  void draw() {
    Model& model = corner_.model;
    model.two_dimensional = false;
    model.environments = corner_.corner.model.environments;
    const double bottom = -flank_;
    const double top = slab_ + flank_;
    for (const SolidBox& solid : corner_.corner.model.solids) {
      model.solids.push_back({between(solid.box, bottom, top), solid.conductivity_w_per_mk, solid.name, solid.hatch});
    }
    if (corner_.floor.kind == DetailKind::floor_joint) draw_joint();
    const Box3 room = box_2d(0.0, 0.0, flank_, flank_);
    if (gap_ > 0.0) {
      model.solids.push_back({between(room, 0.0, slab_), packing_conductivity_, "joint", Hatch::insulation});
    }
    model.solids.push_back(
        {between(box_2d(gap_, gap_, flank_, flank_), 0.0, slab_), slab_conductivity_, "slab", Hatch::masonry});
    model.environment_boxes.push_back({kInside, between(room, bottom, 0.0), build_up_.r_si_m2k_per_w});
    model.environment_boxes.push_back({kInside, between(room, slab_, top), build_up_.r_si_m2k_per_w});
    for (const EnvironmentBox& air : corner_.corner.model.environment_boxes) {
      if (air.environment != kOutside) continue;
      model.environment_boxes.push_back({kOutside, between(air.box, bottom, top), air.surface_resistance_m2k_per_w});
    }
    corner_.slab_m = slab_;
    corner_.joint_m = corner_.floor.kind == DetailKind::floor_joint ? joint_ : 0.0;
  }

 private:
  FloorCorner& corner_;
  const DetailBuildUp& build_up_;
  double flank_;
  double slab_;
  double slab_conductivity_;
  double joint_;  ///< between the panels
  double gap_;    ///< between panel and slab
  double packing_conductivity_;

  /// The details have been found complete, so that what is absent is not needed.
  static double setting_or(const Settings& settings, const char* key, double otherwise) {
    const auto value = settings.number(key);
    return value ? value->value : otherwise;
  }

  /// Rails below and above the joint, and its filling, all running round the corner.
  void draw_joint() {
    const double below = slab_ - joint_;
    const double above = slab_;
    draw_rails(below - *build_up_.head_rail_m, below);
    draw_rails(above, above + *build_up_.sole_rail_m);
    if (joint_ <= 0.0) return;
    const double d = build_up_.thickness_m();
    corner_.model.solids.push_back(
        {between(box_2d(-d, -d, flank_, flank_), below, above), packing_conductivity_, "joint", Hatch::insulation});
  }

  /// Layer within layer from outside, framed ones of timber; what lies nearer to the room overrides.
  void draw_rails(double z_min_m, double z_max_m) {
    double far = build_up_.thickness_m();
    for (auto layer = build_up_.layers.rbegin(); layer != build_up_.layers.rend(); ++layer) {
      const double conductivity =
          layer->framed ? *build_up_.framing_conductivity_w_per_mk : layer->conductivity_w_per_mk;
      corner_.model.solids.push_back({between(box_2d(-far, -far, flank_, flank_), z_min_m, z_max_m), conductivity,
                                      layer->framed ? "framing" : layer->name,
                                      layer->framed ? Hatch::timber : layer->hatch});
      far -= layer->thickness_m;
    }
  }
};

}  // namespace

FloorCorner make_floor_corner(DetailKind floor, const DetailBuildUp& build_up, const Settings& settings) {
  if (floor != DetailKind::floor_edge && floor != DetailKind::floor_joint) {
    throw std::invalid_argument("a corner is crossed by a floor edge or a joint in front of one");
  }
  FloorCorner corner;
  corner.corner = make_detail(DetailKind::external_corner, build_up, settings);
  corner.floor = make_detail(floor, build_up, settings);
  for (const Detail* detail : {&corner.corner, &corner.floor}) {
    corner.missing.insert(corner.missing.end(), detail->missing.begin(), detail->missing.end());
  }
  if (corner.missing.empty()) FloorCornerModel(corner, build_up, settings).draw();
  return corner;
}

FloorCornerResult solve_floor_corner(const FloorCorner& corner, DetailSolver& solver) {
  const auto flow = solver.figures_once(corner.model, options_3d());
  const auto surface = solver.figures_once(for_surface_mould(corner.model), options_3d());
  const DetailResult plan = solver.solve(corner.corner);
  const DetailResult section = solver.solve(corner.floor);
  FloorCornerResult result;
  result.l_3d_w_per_k = flow->coupling_w_per_k[kInside][kOutside];
  const Flank& along_x = corner.corner.flanks[0];
  const Flank& along_y = corner.corner.flanks[1];
  const Flank& upright = corner.floor.flanks.front();
  const auto rest = [&](double along_m, double height_m, double psi_corner, double psi_floor) {
    return result.l_3d_w_per_k - along_x.u_value_w_per_m2k * along_m * height_m - psi_corner * height_m -
           psi_floor * along_m;
  };
  result.chi_internal_w_per_k = rest(along_x.internal_length_m + along_y.internal_length_m, upright.internal_length_m,
                                     plan.psi_internal_w_per_mk, section.psi_internal_w_per_mk);
  result.chi_own_w_per_k = rest(along_x.own_length_m + along_y.own_length_m, upright.own_length_m,
                                plan.psi_own_w_per_mk, section.psi_own_w_per_mk);
  const auto factor = temperature_factor(*surface, kInside, kOutside);
  if (!factor) throw std::runtime_error("the corner has no internal surface");
  result.temperature_factor = *factor - surface->temperature_factor_change;
  result.cells = flow->grids.back().cells;
  result.heat_flow_change = flow->heat_flow_change;
  return result;
}

}  // namespace panel_dossier::thermal::conduction
