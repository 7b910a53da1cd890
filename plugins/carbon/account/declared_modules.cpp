// The modules that declarations state for the product itself: A1–A3, C1–C4 and D.
#include <utility>

#include "core/api/support/exact_sum.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/account/stated_impact.h"
#include "plugins/carbon/declarations/declaration_facts.h"
#include "plugins/carbon/declarations/declared_gwp.h"

namespace panel_dossier::carbon {

namespace {

constexpr const char* kNoOpenings = "Windows and doors are not counted, also when they are fitted in the workshop.";
constexpr const char* kDeclaredProduct =
    "Whether the declaration is that of the product built in, beyond its name, density, thickness, unit, geography and "
    "what is plausible of its figures.";
/// The one rule for the headline of every module.
constexpr const char* kHeadline =
    "As of every module the value is GWP-fossil and GWP-luluc; GWP-biogenic stands beside it and is netted off with "
    "nothing. Only the whole life, from A to C, is given in GWP-total.";

std::vector<CheckInput> inputs_of_modules(const std::vector<Module>& modules) {
  return merged_inputs({declared_amount_inputs(), declared_gwp_inputs(modules)});
}

}  // namespace

std::vector<CheckInput> product_stage_inputs() {
  return merged_inputs({inputs_of_modules({Module::a1_a3}), stated_impact_inputs()});
}

std::vector<CheckInput> end_of_life_inputs() {
  return merged_inputs({inputs_of_modules({Module::a1_a3, Module::c1, Module::c2, Module::c3, Module::c4}),
                        {optional_property(std::string(kDeclarationSet) + ".GwpBiogenicA5")}});
}

const CheckDeclaration kProductStageCheck{
    .id = "carbon.a1_a3",
    .title = "Product stage A1–A3 (fossil and land use)",
    .project_title = "Product stage A1–A3 of all panels (fossil and land use)",
    .sentence =
        "The GWP-fossil and GWP-luluc of A1–A3 are the sums over all materials of the amount built in, in the "
        "unit of their declaration, times what it states; GWP-biogenic stands beside it, and what the export states of "
        "the panel in the standard's sets agrees.",
    .clause = "EN 15978:2011, 8.4; EN 15804:2012+A2:2019, 6.3.5.2",
    .other_clauses = {"EN 15978:2011, 8.4"},
    .units = {"kg CO2e"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(product_stage_inputs()),
    .limits = {kNoOpenings, kDeclaredProduct,
               "What the export states of another phase than PRODUCTION, or of a part of the panel, in the standard's "
               "sets of environmental impact.",
               "A file of another form than ILCD+EPD or CSV is not read: its figures are those of the export."}};

Finding check_product_stage(PanelAccount& account) {
  OpenFinding finding = account.open(kProductStageCheck);
  MaterialRows rows;
  Gwp sum;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const std::size_t gaps = finding.evidence_gaps();
    const auto units = read_declared_units(account, row, Listing::whole, finding);
    const auto per_unit = read_product_gwp(account.declared(row), finding);
    if (!units || !per_unit) continue;
    const Gwp gwp = scaled(*per_unit, *units);
    // What rests on an absent, faulty or expired declaration is shown here alone and goes into no table of modules.
    if (finding.evidence_gaps() == gaps) account.materials[row].at(Module::a1_a3) = gwp;
    sum += gwp;
    rows.materials.emplace_back(account.index(row));
    rows.cells.push_back({*units, gwp.fossil, gwp.luluc, gwp.biogenic, gwp.total()});
  }
  FindingBuilder& builder = finding.builder();
  add_material_table(builder, account.inputs.project, rows, "By material",
                     {{"material", ""},
                      {"amount", "declared units"},
                      {"GWP-fossil", "kg CO2e"},
                      {"GWP-luluc", "kg CO2e"},
                      {"GWP-biogenic", "kg CO2e"},
                      {"GWP-total", "kg CO2e"}});
  // A sum that lacks a material is no match for anything.
  if (finding.complete()) compare_stated_impact(account, sum, finding);
  if (!finding.complete()) return finding.close_incomplete();
  builder.step("GWP-fossil + GWP-luluc", "A1–A3", sum.fossil_and_luluc(), "kg CO2e",
               "A1–A3 = sum(GWP-fossil) + sum(GWP-luluc)");
  builder.step("GWP-biogenic, shown apart", "A1–A3,bio", sum.biogenic, "kg CO2e", "A1–A3,bio = sum(GWP-biogenic)");
  builder.step("GWP-total", "A1–A3,tot", sum.total(), "kg CO2e", "A1–A3,tot = A1–A3 + A1–A3,bio");
  builder.value(kBiogenicValue, sum.biogenic, "kg CO2e");
  builder.note(
      "Figures of a row are the amount q times the declared figure of each indicator, to the milligram. What growing "
      "wood took up (−1) leaves the panel again in C3 or C4 (+1), and that of packaging in A5, so it is no saving over "
      "the whole life (EN 15804:2012+A2:2019, 6.3.5.5).");
  builder.note(kHeadline);
  return builder.inform(sum.fossil_and_luluc(), "kg CO2e");
}

const CheckDeclaration kEndOfLifeCheck{
    .id = "carbon.c1_c4",
    .title = "End of life C1–C4 (fossil and land use)",
    .project_title = "End of life C1–C4 of all panels (fossil and land use)",
    .sentence =
        "The GWP-fossil and GWP-luluc of C1 to C4 are the sums over all materials of the amount built in times what "
        "their declarations state, which give back, with packaging in A5, at least 95 % of the biogenic carbon that "
        "A1–A3 took up; GWP-biogenic stands beside it.",
    .clause = "EN 15978:2011, 8.7; EN 15804:2012+A2:2019, 6.3.5.5",
    .other_clauses = {"EN 15978:2011, 8.7"},
    .units = {"kg CO2e"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(end_of_life_inputs()),
    .limits = {kNoOpenings,
               "Whether the declared scenario of disposal is that of the place and time of the building; the file's "
               "only scenario, its default, or the one the export names, is taken as it is."}};

Finding check_end_of_life(PanelAccount& account) {
  OpenFinding finding = account.open(kEndOfLifeCheck);
  MaterialRows rows;
  Gwp sum;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const std::size_t gaps = finding.evidence_gaps();
    const auto units = read_declared_units(account, row, Listing::amount_only, finding);
    const auto per_unit = read_end_of_life_gwp(account.declared(row), finding);
    if (!units || !per_unit) continue;
    std::vector<double> cells;
    Gwp of_material;
    if (finding.evidence_gaps() == gaps) {
      account.materials[row].packaging = scaled({0.0, per_unit->packaging, 0.0}, *units);
    }
    for (std::size_t i = 0; i < kEndOfLife.size(); ++i) {
      const Gwp gwp = scaled(per_unit->modules[i], *units);
      if (finding.evidence_gaps() == gaps) account.materials[row].at(kEndOfLife[i]) = gwp;
      of_material += gwp;
      cells.push_back(gwp.fossil_and_luluc());
    }
    sum += of_material;
    cells.push_back(of_material.biogenic);
    rows.materials.emplace_back(account.index(row));
    rows.cells.push_back(std::move(cells));
  }
  FindingBuilder& builder = finding.builder();
  add_material_table(builder, account.inputs.project, rows, "By material, GWP-fossil and GWP-luluc",
                     {{"material", ""},
                      {"C1", "kg CO2e"},
                      {"C2", "kg CO2e"},
                      {"C3", "kg CO2e"},
                      {"C4", "kg CO2e"},
                      {"biogenic returned", "kg CO2e"}});
  if (!finding.complete()) return finding.close_incomplete();
  builder.step("GWP-fossil + GWP-luluc", "C1–C4", sum.fossil_and_luluc(), "kg CO2e",
               "C1–C4 = sum(C1) + sum(C2) + sum(C3) + sum(C4)");
  builder.step("GWP-biogenic returned (+1), shown apart", "C,bio", sum.biogenic, "kg CO2e",
               "C,bio = sum(biogenic returned)");
  builder.step("GWP-total", "C,tot", sum.total(), "kg CO2e", "C,tot = C1–C4 + C,bio");
  builder.value(kBiogenicValue, sum.biogenic, "kg CO2e");
  builder.note(
      "Figures of a row are the amount q times the declared figure of each module, to the milligram. The biogenic "
      "carbon "
      "that leaves the panel at the end of its life (+1) was taken up in A1–A3 (−1); add both or neither. Where C3 and "
      "C4 are declared as GWP-total alone, what A1–A3 took up is their biogenic part and the rest counts as fossil. "
      "What A5 declares as returned is that of packaging and counts there.");
  builder.note(kHeadline);
  return builder.inform(sum.fossil_and_luluc(), "kg CO2e");
}

const CheckDeclaration kBeyondBoundaryCheck{
    .id = "carbon.d",
    .title = "Benefits and loads beyond the boundary D (fossil and land use)",
    .project_title = "Benefits and loads beyond the boundary D of all panels (fossil and land use)",
    .sentence =
        "The GWP-fossil and GWP-luluc of module D are the sums over all materials of the amount built in, lost as "
        "waste "
        "and replaced in the study period, times what their declarations state, and are added to no other module; "
        "GWP-biogenic stands beside it.",
    .clause = "EN 15978:2011, 8.8",
    .units = {"kg CO2e"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(merged_inputs({inputs_of_modules({Module::d}), waste_inputs(), service_life_inputs()})),
    .limits = {kNoOpenings, "Whether what is recovered will in fact take the place of what the declaration assumes.",
               "Whether waste of the workshop and what is replaced are recovered as the declaration assumes of the end "
               "of life."}};

Finding check_beyond_boundary(PanelAccount& account) {
  OpenFinding finding = account.open(kBeyondBoundaryCheck);
  const auto period = read_study_period(account.inputs.settings, finding.builder());
  MaterialRows rows;
  Gwp sum;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const std::size_t gaps = finding.evidence_gaps();
    const auto units = read_declared_units(account, row, Listing::amount_only, finding);
    const auto per_unit = read_module_gwp(account.declared(row), Module::d, true, finding);
    const auto waste = read_waste_factor(account.material(row), finding);
    const auto life = read_service_life(account.declared(row), finding);
    if (!units || !per_unit || !waste || !life || !period) continue;
    const double products = replacements(*period, *life) + 1.0;
    const Gwp gwp = scaled(*per_unit, *units * (1.0 + *waste) * products);
    if (finding.evidence_gaps() == gaps) account.materials[row].at(Module::d) = gwp;
    sum += gwp;
    rows.materials.emplace_back(account.index(row));
    rows.cells.push_back({1.0 + *waste, products, gwp.fossil_and_luluc(), gwp.biogenic});
  }
  FindingBuilder& builder = finding.builder();
  add_material_table(builder, account.inputs.project, rows, "By material, GWP-fossil and GWP-luluc",
                     {{"material", ""},
                      {"bought for each built in", ""},
                      {"times built in", ""},
                      {"D", "kg CO2e"},
                      {"D biogenic", "kg CO2e"}});
  if (!finding.complete()) return finding.close_incomplete();
  builder.step("module D", "D", sum.fossil_and_luluc(), "kg CO2e", "D = sum(D)");
  builder.step("GWP-biogenic, shown apart", "D,bio", sum.biogenic, "kg CO2e", "D,bio = sum(D biogenic)");
  builder.value(kBiogenicValue, sum.biogenic, "kg CO2e");
  builder.note(
      "D of a row is the amount q, times 1 / (1 − w) for what is lost before the panel is finished, times the products "
      "built in over the study period, the first and its replacements, times the declared figure, to the milligram. "
      "Module D lies outside the life of the panel and is added to no total. Declarations, their units and validity "
      "are "
      "listed in carbon.a1_a3.");
  builder.note(kHeadline);
  return builder.inform(sum.fossil_and_luluc(), "kg CO2e");
}

}  // namespace panel_dossier::carbon
