// Carbon for each m² of wall against the targets of the project.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/settings.h"
#include "plugins/carbon/account/open_finding.h"
#include "plugins/carbon/totals/targets.h"

namespace panel_dossier::carbon {

struct TargetValue {
  TargetModules modules;
  double per_area;  ///< in kg CO2e/m²
};

/// What targets are judged for: a panel, the panels of a type or all of them.
struct TargetSubject {
  std::string name;                     ///< in the table of the project; empty for the panel of a finding
  std::vector<std::string> applies_to;  ///< the words of a target that select it
  std::vector<TargetValue> values;      ///< the first of the last subject is the value of the finding
};

/// Judges each target in force that limits one of the values of a subject it selects, adds the table `Targets`, and
/// closes the finding: it fails where one is exceeded, naming each. The limit shown is the lowest for the finding's
/// value. Without a target it is information. Targets not in force are noted, not judged; for the project a target in
/// force that selects no subject is missing something.
Finding judge_targets(OpenFinding& finding, const Settings& settings, const std::vector<TargetSubject>& subjects);

}  // namespace panel_dossier::carbon
