// Sums of core indicators over materials and panels, and the tables that show them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding.h"
#include "plugins/carbon/core_indicators/core_indicators.h"

namespace panel_dossier::carbon {

inline constexpr std::string_view kCoreTable = "core_whole";
inline constexpr std::string_view kCorePartialTable = "core_partial";

/// One indicator summed. A group is whole while each part of the sum is.
struct CoreSum {
  std::string indicator;
  std::string unit;
  CoreGroups groups{CoreGroup{0.0, false, true}, CoreGroup{0.0, false, true}, CoreGroup{0.0, false, true}};
  double covered_kg = 0.0;  ///< mass of the materials that declare each group

  bool whole() const;
  /// Adds exactly. `mass_kg` is that of the part added: it counts as covered when all groups of it are whole.
  void add(const CoreGroups& other, double mass_kg);
  void add(const CoreSum& other);
};

/// `kCoreTable`, one row an indicator with a whole group: its sums, and for each m² of `net_m2`.
Table core_table(const std::vector<CoreSum>& sums, double net_m2);
/// `kCorePartialTable`, one row an indicator with a group that is not whole, with the share of `mass_kg` covered. No
/// mass where one of the materials has none.
Table core_partial_table(const std::vector<CoreSum>& sums, std::optional<double> mass_kg);

/// The sums that both tables of a finding show, in the order of `indicators`; `mass_kg` is that of its materials, none
/// where one of them has none.
std::vector<CoreSum> sums_in(const Finding& finding, const std::vector<CoreIndicator>& indicators,
                             std::optional<double> mass_kg);

}  // namespace panel_dossier::carbon
