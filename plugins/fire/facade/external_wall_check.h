// fire.external_wall_material: the rule on external wall materials that holds for a panel, and whether it is met.
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

extern const CheckDeclaration kExternalWallMaterialCheck;

/// Classes are texts of EN 13501-1, or `none`.
struct ExternalWallRule {
  std::string scope;  ///< `all materials` or `external surface`
  std::string near;   ///< within 1 m of the relevant boundary
  std::string far;    ///< at 1 m and more
  std::string insulation;
  std::string membranes;
  Origin origin;
};

/// Foot and top of the panel above ground, in m, decide the zone of the wall: of a panel that stands in both, and of
/// one whose heights are not known, the stricter class counts.
std::optional<ExternalWallRule> find_external_wall_rule(const Tables& tables, const std::string& jurisdiction,
                                                        const std::string& group, double top_storey_m,
                                                        std::optional<std::pair<double, double>> foot_and_top_m);

/// Classes of the wall's materials against the rule of external_walls.csv for jurisdiction, use, height and boundary;
/// where the table has none, of the external surface against the fire engineer's: Panel_FireRequirement.ReactionToFire,
/// else setting fire.external_wall_class. Not assessed where neither says what is asked; evidence needed where no
/// document stands behind the classes. A membrane outermost is no external surface: the class of the outer leaf over it
/// is then Panel_Construction.OuterLeafReactionToFire.
Finding external_wall_material(const Panel& panel, const Project& project, const Settings& settings,
                               const Tables& tables);

}  // namespace panel_dossier::fire
