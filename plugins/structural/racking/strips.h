// The stretches of sheathing that resist racking, each face by itself: EN 1995-1-1:2004+A1:2008 9.2.4.2 (method A) and
// 9.2.4.3 (method B), from memory.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/api/model/panel.h"
#include "plugins/structural/racking/sheathing_face.h"

namespace panel_dossier::structural {

/// ci of method A, 9.2.4.2(4): 1 from a width of half the height, in proportion below, 0 below a quarter of the height,
/// where the method does not hold. Both in m, > 0.
double shape_factor(double width_m, double height_m);

/// Fi,v,Rd of one sheet by method A, (9.21): 1.2·Ff,Rd·bi·ci/s; the fasteners along edges count 1.2 times, 9.2.4.2(5).
double racking_method_a_n(double fastener_n, double width_m, double height_m, double spacing_m);

/// Factors of method B for one wall.
struct MethodB {
  double basic_spacing_m = 0.0;   ///< s0 = 9700·d/ρk, (9.26): d in mm, ρk in kg/m³, s0 in mm
  double dimension_factor = 0.0;  ///< kd, (9.27)
  double load_factor = 0.0;       ///< ki,q, (9.28)
  double spacing_factor = 0.0;    ///< ks, (9.29)
  double sheathing_factor = 1.0;  ///< kn, (9.30)
  double resistance_n = 0.0;      ///< Fi,v,Rd, (9.25)
};

/// `vertical_n_per_m` >= 0: design vertical load that holds the wall down. `weaker_share`: racking strength of the
/// second face over that of the first, 0 for sheathing on one side.
MethodB racking_method_b(double fastener_n, double diameter_m, double density_kg_per_m3, double width_m,
                         double height_m, double spacing_m, double vertical_n_per_m, double weaker_share);

/// Sheets of one face over the whole height of the panel without an opening; m. By method A one sheet wide, by method B
/// as long as sheets meet, of which those narrower than a quarter of the height do not count.
struct RackingStrip {
  std::size_t face = 0;  ///< index into RackingDesign::faces
  double from_m = 0.0;
  double width_m = 0.0;
  std::vector<double> edges_m;  ///< of its sheets, from left to right: each must be fixed to a stud
  double shape_factor = 0.0;    ///< ci of method A
  double share = 1.0;           ///< of its own resistance that counts; below 1 on the weaker face by method A
  double resistance_n = 0.0;    ///< what counts of Fi,v,Rd; by method B with kn, so with the other face
  std::optional<MethodB> method_b;
  double load_n = 0.0;         ///< Fi,v,Ed, its share of the racking load
  double compression_n = 0.0;  ///< Fi,c,Ed = Fi,v,Ed·h/bi, (9.23)

  double to_m() const { return from_m + width_m; }
  /// What of the load is on its own face.
  double on_face_n() const { return method_b ? load_n / method_b->sheathing_factor : load_n; }
};

/// Face by face, then from left to right. 9.2.4.2(7) for faces that differ: half of the weaker; equal ones in full.
/// Method B takes the stronger face and, by kn (9.30), what of the other lies behind it. `vertical_n_per_m` is for
/// ki,q of method B.
std::vector<RackingStrip> racking_strips(const Panel& panel, const std::vector<SheathingFace>& faces, bool method_a,
                                         double vertical_n_per_m);

}  // namespace panel_dossier::structural
