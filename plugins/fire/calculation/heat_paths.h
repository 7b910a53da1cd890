// The ways heat takes through a cassette, EN 1995-1-2:2004 annex E figure E2: through the cavity, at joints of the
// boards, along the studs and at service penetrations.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "plugins/fire/calculation/separating_function.h"
#include "plugins/fire/calculation/stud_in_fire.h"

namespace panel_dossier::fire {

struct HeatPath {
  bool fire_inside = true;
  std::string name;
  std::vector<LayerContribution> layers;  ///< with the joint factors of this path; empty when annex E has no values
  std::optional<double> minutes;          ///< tins, or for a stud the time of its loss, at most 60 min
  std::string remark;
  bool is_joint = false;
};

/// Every path with fire on the face that `function` is for. Joints backed by framing keep kj = 1 (E2.6); unbacked ones
/// take the factor of boards.csv; the board at a joint open by more than 2 mm counts for nothing. `studs` may be
/// incomplete; its path then says so.
std::vector<HeatPath> heat_paths(const SeparatingFunction& function, const Cassette& cassette, const Panel& panel,
                                 const Tables& tables, const StudsInFire& studs);

/// The path with the least time among those that annex E gives; null when there is none.
const HeatPath* governing_path(const std::vector<HeatPath>& paths);

}  // namespace panel_dossier::fire
