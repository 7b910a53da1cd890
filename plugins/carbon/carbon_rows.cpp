#include "plugins/carbon/carbon_rows.h"

#include <array>
#include <utility>

#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/account/whole_life.h"
#include "plugins/carbon/core_indicators/core_indicators.h"

namespace panel_dossier::carbon {

namespace {

/// As `kCoreGroups`, in the spelling of declarations.
constexpr std::array<const char*, kCoreGroups.size()> kGroupsInFile{"A1-A3", "C1-C4", "D"};

const Finding* find_finding(const std::vector<Finding>& findings, const CheckDeclaration& check) {
  for (const Finding& finding : findings) {
    if (finding.check == check.id) return &finding;
  }
  return nullptr;
}

}  // namespace

std::vector<OutputRow> carbon_rows(const std::string& mark, const std::string& type,
                                   const std::vector<Finding>& findings, const Tables& tables) {
  std::vector<OutputRow> rows;
  const auto add_row = [&](std::string_view module, const std::string& indicator, double value,
                           const std::string& unit) {
    rows.push_back({mark, type, std::string(module), indicator, value, unit});
  };
  if (const Finding* whole_life = find_finding(findings, kWholeLifeCheck)) {
    const ModuleSums modules = modules_in(*whole_life);
    for (std::size_t i = 0; i < modules.size(); ++i) {
      if (!modules[i]) continue;
      const std::string_view module = name_of(kModules[i]).in_file;
      add_row(module, "GWP-fossil", modules[i]->fossil, "kg CO2e");
      add_row(module, "GWP-biogenic", modules[i]->biogenic, "kg CO2e");
      add_row(module, "GWP-luluc", modules[i]->luluc, "kg CO2e");
      add_row(module, "GWP-total", modules[i]->total(), "kg CO2e");
    }
  }
  if (const Finding* core = find_finding(findings, kCoreIndicatorsCheck)) {
    for (const CoreSum& sum : sums_in(*core, read_core_indicators(tables.core_indicators), std::nullopt)) {
      for (std::size_t i = 0; i < sum.groups.size(); ++i) {
        if (sum.groups[i].whole) add_row(kGroupsInFile[i], sum.indicator, sum.groups[i].sum, sum.unit);
      }
    }
  }
  return rows;
}

}  // namespace panel_dossier::carbon
