// Targets of the project for the carbon of each m² of wall.
#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"

namespace panel_dossier::carbon {

/// What a target limits: A1–A3 and A1–A5 in GWP-fossil and GWP-luluc, A–C in GWP-total.
enum class TargetModules { a1_a3, a1_a5, a_c };

/// `A1–A5 less biogenic`.
std::string_view printed(TargetModules modules);

inline constexpr const char* kEveryPanel = "every panel";
inline constexpr const char* kWholeProject = "project";

struct Target {
  std::string name;
  TargetModules modules;
  std::string applies_to;        ///< a panel type, `kEveryPanel` or `kWholeProject`
  Sourced<double> limit;         ///< in kg CO2e/m², above 0
  std::string source;            ///< who set it and where
  std::string why_not_in_force;  ///< `it ran out on 2025-12-31`; empty for one that is valid on the assessment date
};

/// Settings `carbon.targets.N`, N from 0 without gaps, valid on `project.assessment_date` or not. Rows that are not
/// usable, and a date that is needed but absent, are noted in `finding` as missing.
std::vector<Target> read_targets(const Settings& settings, FindingBuilder& finding);

}  // namespace panel_dossier::carbon
