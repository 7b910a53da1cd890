// What all lifting checks of a panel start from.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::structural {

struct LiftingPoint {
  const Part* part = nullptr;  ///< lives as long as the panel
  double x_m = 0.0;            ///< in the panel's frame
  double y_m = 0.0;
  double z_m = 0.0;                   ///< of its upper end
  double working_load_limit_n = 0.0;  ///< Panel_Fastener.WorkingLoadLimit
};

struct LiftingBasis {
  double mass_kg = 0.0;
  Vec3 centre;                       ///< of gravity, in the panel's frame
  double dynamic_factor = 0.0;       ///< ψ
  std::vector<LiftingPoint> points;  ///< by x

  double hoisted_n() const;  ///< ψ·m·g
};

/// Mass and centre from the parts, points from the fasteners that lift, ψ from setting
/// `structural.lifting.dynamic_factor`. What is missing is noted in `builder`, and the result is then of no use.
LiftingBasis read_lifting_basis(const Panel& panel, const Project& project, const Settings& settings,
                                FindingBuilder& builder);

/// What every finding on lifting says.
inline constexpr const char* kLiftingCaution =
    "For the competent person who plans the lift, and no replacement of a lift plan: slings, shackles, crane, ground, "
    "wind "
    "and the fitting of the points are theirs to judge. Nobody stands under a hanging panel. Make a trial lift.";

}  // namespace panel_dossier::structural
