// The limits that hold for a project, by jurisdiction, use and day.
#pragma once

#include <optional>
#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"
#include "core/api/support/data_table.h"

namespace panel_dossier::thermal {

/// Which limit is looked up, and the words for it.
struct LimitKind {
  const char* table;   ///< file name
  const char* column;  ///< of the value
  const char* name;
  const char* symbol;
  const char* unit;
};

inline constexpr LimitKind kWallLimit{"u_value_limits.csv", "u_limit_w_per_m2k", "limit on the U-value of a wall",
                                      "U_max", "W/(m²·K)"};
inline constexpr LimitKind kWindowLimit{"window_limits.csv", "u_limit_w_per_m2k", "limit on the U-value of a window",
                                        "U_lim", "W/(m²·K)"};
inline constexpr LimitKind kDoorLimit{"door_limits.csv", "u_limit_w_per_m2k", "limit on the U-value of a door", "U_lim",
                                      "W/(m²·K)"};
inline constexpr LimitKind kAirPermeabilityLimit{"air_permeability_limits.csv", "q50_limit_m3_per_hm2",
                                                 "limit on the air permeability of the envelope at 50 Pa", "q_50,max",
                                                 "m³/(h·m²)"};

/// The row of `limits` for settings `project.jurisdiction`, `project.use` and `project.assessment_date`, in the unit of
/// `kind`, recorded as an input. None, with the reason noted in `builder`, when a setting is missing or no row holds
/// that day.
std::optional<double> find_limit(const DataTable& limits, const LimitKind& kind, const Settings& settings,
                                 FindingBuilder& builder);

/// Closes a finding on the U-value of walls, in W/(m²·K), against the limit of the jurisdiction. `what` leads the
/// reason of a failure: `U`. Without a limit it is not assessed and keeps its value, which is sound.
Finding judge_wall(double u_w_per_m2k, const std::string& what, const DataTable& limits, const Settings& settings,
                   FindingBuilder& builder);

}  // namespace panel_dossier::thermal
