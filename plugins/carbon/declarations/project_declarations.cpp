#include "plugins/carbon/declarations/project_declarations.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/account/core_indicators.h"
#include "plugins/carbon/account/open_finding.h"
#include "plugins/carbon/declarations/declaration.h"
#include "plugins/carbon/declarations/declared_scenarios.h"

namespace panel_dossier::carbon {

namespace {

constexpr std::string_view kAmounts = "By material";

std::string text_or_dash(const std::optional<Sourced<std::string>>& text) {
  return text ? text->value : std::string("–");
}

std::vector<Value> declaration_row(const Project& project, const Material& material, const std::string& label) {
  const Declaration* file = declaration_file(project, material);
  const auto kind = data_kind(project, material);
  const bool unit_in_file = file != nullptr && file->unit;
  return {label,
          text_or_dash(material.properties.text(kDeclarationSet, "DocumentId")),
          std::string(file != nullptr ? "file" : "export"),
          text_or_dash(unit_in_file ? file->unit : material.properties.text(kDeclarationSet, "DeclaredUnit")),
          text_or_dash(valid_until(project, material)),
          std::string(kind ? to_string(*kind) : "–"),
          file != nullptr ? text_or_dash(file->geography) : std::string("–"),
          file != nullptr ? text_or_dash(file->data_quality) : std::string("–")};
}

void add_other_indicators(const Project& project, const Material& material, const std::string& label, double amount,
                          const DataTable& indicators, OpenFinding& finding, Table& table) {
  for (const CoreIndicator& indicator : read_core_indicators(indicators)) {
    const CoreGroups groups = core_groups(project, material, indicator, amount, finding);
    std::vector<Value> row{label, indicator.declared.names.front(), indicator.printed_unit};
    bool any = false;
    for (const CoreGroup& group : groups) {
      any = any || group.any;
      row.emplace_back();
      if (group.any) row.back() = group.sum;
    }
    if (any) table.rows.push_back(std::move(row));
  }
}

}  // namespace

Finding declarations_of_project(const Project& project, const std::vector<PanelFindings>& panels,
                                const Tables& tables) {
  OpenFinding finding("carbon.declarations", "Environmental declarations behind the account", "",
                      "EN 15804:2012+A2:2019, table 3");
  finding.builder().basis(Basis::declared).decimals(0);
  Table declarations{"Declarations",
                     {{"material", ""},
                      {"document", ""},
                      {"read from", ""},
                      {"unit", ""},
                      {"valid until", ""},
                      {"data", ""},
                      {"geography", ""},
                      {"quality", ""}},
                     {}};
  Table others{"Other core indicators, amount in all panels",
               {{"material", ""}, {"indicator", ""}, {"unit", ""}, {"A1–A3", ""}, {"C1–C4", ""}, {"D", ""}},
               {}};
  double files = 0.0;
  // Amounts in declared units, from the product stage.
  const Table amounts = summed_tables(tables_of(panels, "carbon.a1_a3", kAmounts));
  for (const auto& row : amounts.rows) {
    const auto& label = std::get<std::string>(row[0]);
    const Material* material = material_labelled(project, label);
    if (material == nullptr) continue;
    declarations.rows.push_back(declaration_row(project, *material, label));
    if (declaration_file(project, *material) == nullptr) continue;
    files += 1.0;
    add_other_indicators(project, *material, label, std::get<double>(row[1]), tables.core_indicators, finding, others);
  }
  if (declarations.rows.empty()) return finding.builder().not_assessed("no material of a panel has a declaration");
  const auto count = static_cast<double>(declarations.rows.size());
  finding.builder().number("materials with a declaration", "n", "", Sourced<double>{count, project.origin}, {});
  finding.builder().step("of these, read from a file of the supplier", "n_file", files, "");
  finding.builder().table(std::move(declarations));
  if (!others.rows.empty()) {
    finding.builder().table(std::move(others));
    finding.builder().note(
        "Other core indicators are given for materials whose file declares them, as far as it does; sums are those of "
        "carbon.core_indicators. A waste share in A5 and replacements in B4 are not part of them.");
  }
  add_declared_scenarios(project, panels, amounts, finding);
  if (!finding.complete()) return finding.close_incomplete();
  return finding.builder().inform(count, "materials");
}

}  // namespace panel_dossier::carbon
