// Separating function of a wall to EN 1995-1-2:2004 annex E, for a cavity filled with mineral wool and one board a
// face, along every way that heat takes through it (figure E2): the cavity, joints of the boards, studs, penetrations;
// and its steps and tables beside test evidence, where it never decides a verdict.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "plugins/fire/calculation/cassette.h"
#include "plugins/fire/calculation/stud_in_fire.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// Annex E covers assemblies up to this period, E1(1).
inline constexpr double kAnnexELimit_min = 60.0;

struct LayerContribution {
  std::size_t layer = 0;  ///< index into Panel::layers
  double thickness_mm = 0.0;
  double basic_min = 0.0;        ///< tins,0 (E.2 to E.7)
  double position_factor = 1.0;  ///< kpos, table E3
  double joint_factor = 1.0;     ///< kj, E2.6: joints on framing
  Origin origin;                 ///< row of the data table behind tins,0

  double minutes() const { return basic_min * position_factor * joint_factor; }
};

struct SeparatingFunction {
  std::vector<LayerContribution> layers;  ///< from the fire to the unexposed side
  std::vector<std::string> missing;       ///< not empty: `layers` is incomplete

  /// tins = Σ tins,0·kpos·kj (E.1), not cut off at the limit of annex E.
  double insulation_time_min() const;
};

/// Fire on the inner or the outer face of the cassette.
SeparatingFunction separating_function(const Cassette& cassette, const Panel& panel, const Tables& tables,
                                       bool fire_inside);

/// kpos of a board on the fire's side in front of mineral wool, (E.8): 0.02·hp + 0.54, at most 1.
double exposed_position_factor(double thickness_mm);

/// kpos of a board on the unexposed side behind glass wool, (E.9): 0.07·hp − 0.17, not below 0.
double unexposed_position_factor_behind_glass_wool(double thickness_mm);

struct HeatPath {
  bool fire_inside = true;
  std::string name;
  std::vector<LayerContribution> layers;  ///< with the joint factors of this path; empty when annex E has no values
  std::optional<double> minutes;          ///< tins, or for a stud the time of its loss, at most 60 min
  std::string remark;
  bool is_joint = false;

  /// Of the joint on this way; 1 where joints do not matter.
  double joint_factor() const;
};

/// Every path with fire on the face that `function` is for. Joints backed by framing keep kj = 1 (E2.6); unbacked ones
/// take the factor of boards.csv; the board at a joint open by more than 2 mm counts for nothing. `studs` may be
/// incomplete; its path then says so.
std::vector<HeatPath> heat_paths(const SeparatingFunction& function, const Cassette& cassette, const Panel& panel,
                                 const Tables& tables, const StudsInFire& studs);

/// The path with the least time among those that annex E gives; null when there is none.
const HeatPath* governing_path(const std::vector<HeatPath>& paths);

/// EN 1995-1-2 annex E with fire on either face along every way of heat, or a step that says why it is not calculated.
void add_separating_function(FindingBuilder& builder, const Panel& panel, const Project& project,
                             const Cassette& cassette, const Tables& tables);
/// What it reads beside the cassette.
std::vector<CheckInput> separating_function_inputs();

}  // namespace panel_dossier::fire
