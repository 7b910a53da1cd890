// Least and largest distances between fasteners and from edges: EN 1995-1-1:2004+A1:2008 8.3.1, table 8.2, and 10.8.2.
#pragma once

#include <string>
#include <vector>

#include "plugins/structural/racking/sheathing_face.h"

namespace panel_dossier::structural {

/// One rule; lengths in m.
struct DistanceRule {
  std::string name;
  std::string clause;
  double value_m = 0.0;
  double limit_m = 0.0;
  bool at_least = true;

  bool kept() const { return at_least ? value_m >= limit_m : value_m <= limit_m; }
};

/// Fasteners along the edges of the sheets, without predrilled holes, timber up to 500 kg/m³, edges taken as unloaded
/// (9.2.4.2(5)). In a fixed order; d is the nominal diameter. The rule for studs between the edges needs the spacing.
std::vector<DistanceRule> distance_rules(const SheathingFace& face);

}  // namespace panel_dossier::structural
