// Targets of the project for the carbon of each m² of wall, and how values are judged by them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/settings.h"
#include "plugins/carbon/account/account.h"

namespace panel_dossier::carbon {

/// What a target limits: A1–A3 and A1–A5 in GWP-fossil and GWP-luluc, A–C in GWP-total.
enum class TargetModules { a1_a3, a1_a5, a_c };

inline constexpr const char* kEveryPanel = "every panel";
inline constexpr const char* kWholeProject = "project";

/// Settings that tell of targets, for declarations of checks.
std::vector<CheckInput> target_inputs();

struct TargetValue {
  TargetModules modules;
  double per_area;                            ///< in kg CO2e/m²
  std::optional<double> range_per_area = {};  ///< by which it may be off, either way; none where that is not known
};

/// What targets are judged for: a panel, the panels of a type or all of them.
struct TargetSubject {
  std::string name;                     ///< in the table of the project; empty for the panel of a finding
  std::vector<std::string> applies_to;  ///< the words of a target that select it
  std::vector<TargetValue> values;      ///< the first of the last subject is the value of the finding
};

/// Reads settings `carbon.targets.N`, N from 0 without gaps, judges each target in force on `project.assessment_date`
/// that limits one of the values of a subject it selects, adds the table `Targets`, and closes the finding. It fails
/// where a value exceeds one, naming each; evidence is needed where a value keeps it but not with its range; it is not
/// assessed where `range_needed`, the reason why the range must be known and is not, is not empty, and where the
/// settings hold no target in force for these modules at all. Its value stays in each case. It is information where
/// targets are in force for other subjects alone. Value, limit and utilisation are those of the finding's own value,
/// the limit the lowest for it; where another value decides, no limit is shown. Targets not in force are noted, not
/// judged. Missing something, which leaves no value, are rows that are not usable, one that ends before it begins, a
/// date that is needed but absent, and for the project a target in force that selects no subject.
Finding judge_targets(OpenFinding& finding, const Settings& settings, const std::vector<TargetSubject>& subjects,
                      const std::string& range_needed);

}  // namespace panel_dossier::carbon
