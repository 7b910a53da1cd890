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

/// What a rule puts its limit on.
enum class LimitScope {
  element,   ///< every element
  average,   ///< the average of all elements of the kind, weighted by area
  envelope,  ///< a mean over more than this program sees: all opaque, or all transparent, outer parts of the building
};

/// A limit of the jurisdiction as its rule puts it.
struct RuleLimit {
  double value = 0.0;
  LimitScope scope = LimitScope::element;
  std::optional<double> single;  ///< of one element, where the rule limits the average and has one
};

/// As `find_limit`, with the columns `scope` (`element` when empty or not there) and `single_limit`.
std::optional<RuleLimit> find_rule(const DataTable& limits, const LimitKind& kind, const Settings& settings,
                                   FindingBuilder& builder);

/// The row of `limits` for settings `project.jurisdiction`, `project.use` and `project.assessment_date`, in the unit of
/// `kind`, recorded as an input. None, with the reason noted in `builder`, when a setting is missing or no row holds
/// that day.
std::optional<double> find_limit(const DataTable& limits, const LimitKind& kind, const Settings& settings,
                                 FindingBuilder& builder);

/// Closes a finding on the U-value of one panel, in W/(m²·K). It is held against the setting
/// `thermal.design_u_w_per_m2k` where that is given, and against what the rule of the jurisdiction asks of one element:
/// its limit, or beside a limit on the average that of a single element; where neither is there the value is
/// information. Without a row for place, use and day it is not assessed and keeps its value, which is sound.
Finding judge_panel(double u_w_per_m2k, const DataTable& limits, const Settings& settings, FindingBuilder& builder);

/// Closes a finding on the average U-value of the panels, in W/(m²·K), against the limit of the jurisdiction. Not
/// assessed, with its value, where the rule puts its limit on more than walls.
Finding judge_average(double u_w_per_m2k, const DataTable& limits, const Settings& settings, FindingBuilder& builder);

/// The finding, where another source contradicts it: a pass or an information becomes `not assessed` for this reason
/// and loses its value, a failure keeps its verdict and names the contradiction too. As it is when `why` is empty.
Finding unless_contradicted(Finding finding, const std::string& why);

}  // namespace panel_dossier::thermal
