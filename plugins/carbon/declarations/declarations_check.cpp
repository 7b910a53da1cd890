#include "plugins/carbon/declarations/declarations_check.h"

#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "core/api/support/words.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/core_indicators/core_indicators.h"
#include "plugins/carbon/declarations/declaration_facts.h"
#include "plugins/carbon/declarations/declared_gwp.h"

namespace panel_dossier::carbon {

namespace {

std::string text_or_dash(const std::optional<Sourced<std::string>>& text) {
  return text ? text->value : std::string("–");
}

std::vector<Value> declaration_row(const DeclaredMaterial& declared, const std::string& label) {
  const Material& material = *declared.material;
  const Declaration* file = declared.file;
  const auto kind = data_kind(declared);
  const bool unit_in_file = file != nullptr && file->unit;
  return {label,
          text_or_dash(material.properties.text(kDeclarationSet, "DocumentId")),
          std::string(file != nullptr ? "file" : "export"),
          text_or_dash(unit_in_file ? file->unit : material.properties.text(kDeclarationSet, "DeclaredUnit")),
          text_or_dash(valid_until(declared)),
          std::string(kind ? to_string(*kind) : "–"),
          file != nullptr ? text_or_dash(file->geography) : std::string("–"),
          file != nullptr ? text_or_dash(file->data_quality) : std::string("–")};
}

void add_other_indicators(const DeclaredMaterial& declared, const std::string& label, double amount,
                          const DataTable& indicators, OpenFinding& finding, Table& table) {
  for (const CoreIndicator& indicator : read_core_indicators(indicators)) {
    const CoreGroups groups = core_groups(declared, indicator, amount, finding);
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

/// GWP-total of the module over the amount; nothing where it is not declared or not usable.
Value declared_total(const DeclaredMaterial& declared, Module module, double amount) {
  OpenFinding scratch(kDeclarationsCheck, "");
  const auto gwp = read_module_gwp(declared, module, false, scratch);
  if (!gwp || !scratch.complete()) return {};
  return scaled(*gwp, amount).total();
}

/// The cell of that material; nothing where the panels have none.
Value own(const MaterialRows& rows, std::size_t material, std::size_t column) {
  const std::vector<double>* row = rows.find(material);
  return row == nullptr ? Value() : Value(row->at(column));
}

bool is_given(const Value& value) {
  return !std::holds_alternative<std::monostate>(value);
}

/// `'board' in A4 0.6 instead of 9.0`, where the project's own is less than what is declared; else empty.
std::string less_than_declared(const std::string& label, const char* module, const Value& declared, const Value& own) {
  const double* stated = std::get_if<double>(&declared);
  const double* counted = std::get_if<double>(&own);
  if (stated == nullptr || counted == nullptr || *counted >= *stated) return {};
  return "'" + label + "' in " + module + " " + fixed_text(*counted, 1) + " instead of " + fixed_text(*stated, 1);
}

/// Adds a table with a row for each material of `amounts`, in declared units, whose file declares A4 or A5: GWP-total
/// declared, over that amount, and the sum of the panels' own. Nothing without such a row. Figures that are not usable
/// are left out: nothing rests on them.
void add_declared_scenarios(const RunInputs& inputs, const std::vector<PanelFindings>& panels,
                            const MaterialRows& amounts, OpenFinding& finding) {
  const MaterialRows transport = sum_by_material(findings_of(panels, kTransportCheck));
  const MaterialRows waste = sum_by_material(findings_of(panels, kConstructionCheck));
  Table table{"Declared A4 and A5 beside the project's own, amount in all panels",
              {{"material", ""},
               {"A4 declared", "kg CO2e"},
               {"A4 of the project", "kg CO2e"},
               {"A5 declared", "kg CO2e"},
               {"A5 of the project, waste", "kg CO2e"}},
              {}};
  std::string less;
  for (std::size_t row = 0; row < amounts.materials.size(); ++row) {
    const std::size_t material = amounts.materials[row].value();
    const double amount = amounts.cells[row].at(kAmountColumn);
    Value a4 = declared_total(inputs.materials[material], Module::a4, amount);
    Value a5 = declared_total(inputs.materials[material], Module::a5, amount);
    if (!is_given(a4) && !is_given(a5)) continue;
    const std::string label = label_of(inputs.project, material);
    Value own_a4 = own(transport, material, kTransportColumn);
    Value own_a5 = own(waste, material, kWasteColumn);
    for (const std::string& one :
         {less_than_declared(label, "A4", a4, own_a4), less_than_declared(label, "A5", a5, own_a5)}) {
      if (!one.empty()) less += (less.empty() ? "" : ", ") + one;
    }
    table.rows.push_back({label, std::move(a4), std::move(own_a4), std::move(a5), std::move(own_a5)});
  }
  if (table.rows.empty()) return;
  finding.builder().table(std::move(table));
  finding.builder().note(
      "Declared A4 and A5 stand for comparison and are not used: they rest on a mean distance, vehicle and waste of "
      "the supplier, where this account has the project's, and their waste would be counted twice. They are GWP-total; "
      "the "
      "project's own leave out biogenic carbon, which waste takes up and returns within A5.");
  if (less.empty()) return;
  finding.builder().note(
      "The project's own counts less than is declared, kg CO2e: " + less +
      ". It rests on setting carbon.road_transport_gwp_kgco2e_per_tonne_km, Panel_Supply.TransportDistance and "
      "Panel_EnvironmentalDeclaration.WasteRateA5.");
}

std::vector<CheckInput> declarations_inputs() {
  return merged_inputs(
      {optional_inputs(declared_amount_inputs()),
       {optional_property(std::string(kDeclarationSet) + ".DataKind"), data_table("core_indicators.csv")}});
}

/// Indices of the materials that parts and layers of the panels have, ascending.
std::set<std::size_t> materials_of(const std::vector<PanelFindings>& panels) {
  std::set<std::size_t> materials;
  for (const PanelFindings& panel : panels) {
    for (const Part& part : panel.panel->parts) {
      if (part.material) materials.insert(*part.material);
    }
    if (!panel.panel->parts.empty()) continue;
    for (const Layer& layer : panel.panel->layers) {
      if (layer.material) materials.insert(*layer.material);
    }
  }
  return materials;
}

}  // namespace

const CheckDeclaration kDeclarationsCheck{
    .id = "carbon.declarations",
    .title = "Environmental declarations behind the account",
    .sentence =
        "Every material that the panels hold has a declaration that is there, in force on the assessment date and of "
        "that product, and is listed with the unit, day of expiry, kind and geography it states, and what its file "
        "declares of other indicators.",
    .clause = "EN 15804:2012+A2:2019, table 3",
    .units = {"materials"},
    .kind = CheckKind::evidence,
    .scope = CheckScope::project,
    .inputs = declarations_inputs(),
    .limits = {
        "Whether a declaration is verified by a third party, and by which programme.",
        "Whether the figures are plausible and fit what is built in, which the modules judge; carbon.a1_a3 names "
        "those that do not."}};

Finding declarations_of_project(const RunInputs& inputs, const std::vector<PanelFindings>& panels) {
  OpenFinding finding(kDeclarationsCheck, "");
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
  const MaterialRows amounts = sum_by_material(findings_of(panels, kProductStageCheck));
  double count = 0.0;
  for (const std::size_t material : materials_of(panels)) {
    const DeclaredMaterial& declared = inputs.materials[material];
    const std::string label = label_of(inputs.project, material);
    declarations.rows.push_back(declaration_row(declared, label));
    check_declaration(inputs.settings, declared, Listing::amount_only, finding);
    if (declared.document != nullptr) count += 1.0;
    if (declared.file == nullptr) continue;
    files += 1.0;
    const std::vector<double>* amount = amounts.find(material);
    if (amount == nullptr) continue;
    add_other_indicators(declared, label, amount->at(kAmountColumn), inputs.tables.core_indicators, finding, others);
  }
  if (declarations.rows.empty()) return finding.builder().not_assessed("no panel holds a material");
  finding.builder().number("materials with a declaration", "n", "", Sourced<double>{count, inputs.project.origin}, {});
  finding.builder().step("of these, read from a file of the supplier", "n_file", files, "");
  finding.builder().table(std::move(declarations));
  if (!others.rows.empty()) {
    finding.builder().table(std::move(others));
    finding.builder().note(
        "Other core indicators are given for materials whose file declares them, as far as it does; sums are those of "
        "carbon.core_indicators. A waste share in A5 and replacements in B4 are not part of them.");
  }
  add_declared_scenarios(inputs, panels, amounts, finding);
  if (!finding.complete()) return finding.close_incomplete();
  return finding.builder().inform(count, kDeclarationsCheck.units.front());
}

}  // namespace panel_dossier::carbon
