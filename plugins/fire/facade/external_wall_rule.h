// The rule on external wall materials that holds for a panel.
#pragma once

#include <optional>
#include <string>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// Classes are texts of EN 13501-1, or `none`.
struct ExternalWallRule {
  std::string scope;  ///< `all materials` or `external surface`
  std::string near;   ///< within 1 m of the relevant boundary
  std::string far;    ///< at 1 m and more
  std::string insulation;
  std::string membranes;
  Origin origin;
};

/// `panel_top_m` above ground decides the zone of the wall; with none the stricter zone is taken.
std::optional<ExternalWallRule> find_external_wall_rule(const Tables& tables, const std::string& jurisdiction,
                                                        const std::string& group, double top_storey_m,
                                                        std::optional<double> panel_top_m);

}  // namespace panel_dossier::fire
