// The stretches of sheathing that resist racking, each face by itself.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "core/api/model/panel.h"
#include "plugins/structural/racking/resistance.h"
#include "plugins/structural/racking/sheathing_face.h"

namespace panel_dossier::structural {

/// Sheets of one face over the whole height of the panel without an opening; m. By method A one sheet wide, by method B
/// as long as sheets meet.
struct RackingStrip {
  std::size_t face = 0;  ///< index into RackingDesign::faces
  double from_m = 0.0;
  double width_m = 0.0;
  double shape_factor = 0.0;  ///< ci of method A
  double share = 1.0;         ///< of its own resistance that counts; below 1 on the weaker face by method A
  double resistance_n = 0.0;  ///< what counts of Fi,v,Rd; by method B with kn, so with the other face
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
