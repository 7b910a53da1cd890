// Core environmental impact indicators beside global warming, of a panel and of the project; their sums over materials
// and panels, and the tables that show them.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/plugin.h"
#include "core/api/support/data_table.h"
#include "plugins/carbon/account/account.h"
#include "plugins/carbon/declarations/declared_figure.h"

namespace panel_dossier::carbon {

/// One row of `core_indicators.csv`.
struct CoreIndicator {
  DeclaredIndicator declared;  ///< its first name is the key
  std::string printed_unit;
  double per_unit = 1.0;  ///< printed units in one unit of the declaration
};

std::vector<CoreIndicator> read_core_indicators(const DataTable& table);

/// Groups of modules that are counted: A1–A3, C1–C4 and D, in this order.
inline constexpr std::array<std::string_view, 3> kCoreGroups{"A1–A3", "C1–C4", "D"};

/// What a declaration states of one group, times an amount.
struct CoreGroup {
  double sum = 0.0;    ///< of the modules declared, in the printed unit, in whole millionths of it
  bool any = false;    ///< a module is declared
  bool whole = false;  ///< each module is
};
using CoreGroups = std::array<CoreGroup, kCoreGroups.size()>;

/// The indicator for `units` of the material, as its file declares it; nothing without one. Gaps go to `finding`.
CoreGroups core_groups(const DeclaredMaterial& declared, const CoreIndicator& indicator, double units,
                       OpenFinding& finding);

extern const CheckDeclaration kCoreIndicatorsCheck;

/// Sums over the materials of the panel, whole where every material declares the group, else as partial sums with the
/// share of mass that is covered and the materials that lack it. The value is how many indicators are whole. Never
/// fails.
Finding check_core_indicators(const PanelAccount& account);

/// The sum of the panels' findings to the last digit, for each m² of net wall, and by type.
Finding core_indicators_of_project(const RunInputs& inputs, const std::vector<PanelFindings>& panels);

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
