#include "plugins/carbon/declarations/declared_scenarios.h"

#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/declarations/declared_gwp.h"

namespace panel_dossier::carbon {

namespace {

/// Column of the table of waste by material that holds A5.
constexpr std::size_t kWasteColumn = 5;
/// Column of the table of transport by material that holds A4.
constexpr std::size_t kTransportColumn = 3;

/// GWP-total of the module over the amount; nothing where it is not declared or not usable.
Value declared(const Project& project, const Material& material, Module module, double amount) {
  OpenFinding scratch("carbon.declarations", "", "", "");
  const auto gwp = read_module_gwp(project, material, module, false, scratch);
  if (!gwp || !scratch.complete()) return {};
  return scaled(*gwp, amount).total();
}

Value own(const Table& table, const std::string& label, std::size_t column) {
  for (const auto& row : table.rows) {
    if (std::get<std::string>(row.front()) == label) return row[column];
  }
  return {};
}

bool is_given(const Value& value) {
  return !std::holds_alternative<std::monostate>(value);
}

}  // namespace

void add_declared_scenarios(const Project& project, const std::vector<PanelFindings>& panels, const Table& amounts,
                            OpenFinding& finding) {
  const Table transport = summed_tables(tables_of(panels, "carbon.a4", kTransportByMaterial));
  const Table waste = summed_tables(tables_of(panels, "carbon.a5", kWasteByMaterial));
  Table table{"Declared A4 and A5 beside the project's own, amount in all panels",
              {{"material", ""},
               {"A4 declared", "kg CO2e"},
               {"A4 of the project", "kg CO2e"},
               {"A5 declared", "kg CO2e"},
               {"A5 of the project, waste", "kg CO2e"}},
              {}};
  for (const auto& row : amounts.rows) {
    const auto& label = std::get<std::string>(row[0]);
    const Material* material = material_labelled(project, label);
    if (material == nullptr) continue;
    const double amount = std::get<double>(row[1]);
    Value a4 = declared(project, *material, Module::a4, amount);
    Value a5 = declared(project, *material, Module::a5, amount);
    if (!is_given(a4) && !is_given(a5)) continue;
    table.rows.push_back({label, std::move(a4), own(transport, label, kTransportColumn), std::move(a5),
                          own(waste, label, kWasteColumn)});
  }
  if (table.rows.empty()) return;
  finding.builder().table(std::move(table));
  finding.builder().note(
      "Declared A4 and A5 stand for comparison and are not used: they rest on a mean distance, vehicle and waste of "
      "the "
      "supplier, where this account has the project's, and their waste would be counted twice. They are GWP-total; the "
      "project's own leave out biogenic carbon, which waste takes up and returns within A5.");
}

}  // namespace panel_dossier::carbon
