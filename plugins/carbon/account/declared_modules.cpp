// The modules that declarations state for the product itself: A1–A3, C1–C4 and D.
#include <utility>

#include "core/api/support/exact_sum.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/declarations/declaration_facts.h"
#include "plugins/carbon/declarations/declared_gwp.h"

namespace panel_dossier::carbon {

namespace {

constexpr const char* kNoOpenings = "Windows and doors are not counted, also when they are fitted in the workshop.";
constexpr const char* kDeclaredProduct =
    "Whether the declaration is that of the product built in; a density or thickness more than 5 % off is a note.";

std::vector<CheckInput> inputs_of_modules(const std::vector<Module>& modules) {
  std::vector<CheckInput> inputs = declared_amount_inputs();
  for (CheckInput& input : declared_gwp_inputs(modules)) inputs.push_back(std::move(input));
  return inputs;
}

}  // namespace

const CheckDeclaration kProductStageCheck{
    .id = "carbon.a1_a3",
    .title = "Product stage A1–A3 (fossil and land use)",
    .project_title = "Product stage A1–A3 of all panels (fossil and land use)",
    .sentence =
        "The GWP-fossil and GWP-luluc of A1–A3 is the sum over all materials of the amount built in, in the "
        "unit of their declaration, times what it states; GWP-biogenic stands beside it.",
    .clause = "EN 15978:2011, 8.4; EN 15804:2012+A2:2019, 6.3.5.2",
    .other_clauses = {"EN 15978:2011, 8.4"},
    .units = {"kg CO2e"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = inputs_of_modules({Module::a1_a3}),
    .limits = {kNoOpenings, kDeclaredProduct,
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
  if (!finding.complete()) return finding.close_incomplete();
  builder.step("GWP-fossil + GWP-luluc", "A1–A3", sum.fossil_and_luluc(), "kg CO2e",
               "A1–A3 = sum(GWP-fossil) + sum(GWP-luluc)");
  builder.step("GWP-biogenic, shown apart", "A1–A3,bio", sum.biogenic, "kg CO2e", "A1–A3,bio = sum(GWP-biogenic)");
  builder.step("GWP-total", "A1–A3,tot", sum.total(), "kg CO2e", "A1–A3,tot = A1–A3 + A1–A3,bio");
  builder.value(kBiogenicValue, sum.biogenic, "kg CO2e");
  builder.note(
      "Figures of a row are the amount q times the declared figure of each indicator, to the milligram. The value "
      "leaves out biogenic carbon: what growing wood took up (−1) leaves the panel again in C3 or C4 (+1), so it is no "
      "saving over the whole life (EN 15804:2012+A2:2019, 6.3.5.5). Both are printed and never netted off.");
  return builder.inform(sum.fossil_and_luluc(), "kg CO2e");
}

const CheckDeclaration kEndOfLifeCheck{
    .id = "carbon.c1_c4",
    .title = "End of life C1–C4",
    .project_title = "End of life C1–C4 of all panels",
    .sentence =
        "The GWP-total of C1 to C4 is the sum over all materials of the amount built in times what their "
        "declarations state, which gives back at least 95 % of the biogenic carbon that A1–A3 took up.",
    .clause = "EN 15978:2011, 8.7; EN 15804:2012+A2:2019, 6.3.5.5",
    .other_clauses = {"EN 15978:2011, 8.7"},
    .units = {"kg CO2e"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = inputs_of_modules({Module::a1_a3, Module::c1, Module::c2, Module::c3, Module::c4}),
    .limits = {kNoOpenings,
               "Whether the declared scenario of disposal is that of the place and time of the building; the file's "
               "only scenario, or the one the export names, is taken as it is."}};

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
    for (std::size_t i = 0; i < kEndOfLife.size(); ++i) {
      const Gwp gwp = scaled((*per_unit)[i], *units);
      if (finding.evidence_gaps() == gaps) account.materials[row].at(kEndOfLife[i]) = gwp;
      of_material += gwp;
      cells.push_back(gwp.total());
    }
    sum += of_material;
    cells.push_back(of_material.biogenic);
    rows.materials.emplace_back(account.index(row));
    rows.cells.push_back(std::move(cells));
  }
  FindingBuilder& builder = finding.builder();
  add_material_table(builder, account.inputs.project, rows, "By material, GWP-total",
                     {{"material", ""},
                      {"C1", "kg CO2e"},
                      {"C2", "kg CO2e"},
                      {"C3", "kg CO2e"},
                      {"C4", "kg CO2e"},
                      {"biogenic returned", "kg CO2e"}});
  if (!finding.complete()) return finding.close_incomplete();
  builder.step("GWP-total", "C1–C4", sum.total(), "kg CO2e", "C1–C4 = sum(C1) + sum(C2) + sum(C3) + sum(C4)");
  builder.step("of that, biogenic carbon returned (+1)", "C,bio", sum.biogenic, "kg CO2e",
               "C,bio = sum(biogenic returned)");
  builder.step("fossil and land use", "C,fos", sum.fossil_and_luluc(), "kg CO2e", "C,fos = C1–C4 − C,bio");
  builder.value(kBiogenicValue, sum.biogenic, "kg CO2e");
  builder.note(
      "Figures of a row are the amount q times the declared figure of each module, to the milligram. The value holds "
      "the biogenic carbon that leaves the panel at the end of its life (+1). It was taken up in A1–A3 (−1) and is "
      "shown there apart; add both or neither. Where C3 and C4 are declared as GWP-total alone, what A1–A3 took up is "
      "their biogenic part and the rest counts as fossil.");
  return builder.inform(sum.total(), "kg CO2e");
}

const CheckDeclaration kBeyondBoundaryCheck{
    .id = "carbon.d",
    .title = "Benefits and loads beyond the boundary D",
    .project_title = "Benefits and loads beyond the boundary D of all panels",
    .sentence =
        "The GWP-total of module D is the sum over all materials of the amount built in times what their "
        "declarations state, and is added to no other module.",
    .clause = "EN 15978:2011, 8.8",
    .units = {"kg CO2e"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = inputs_of_modules({Module::d}),
    .limits = {kNoOpenings, "Whether what is recovered will in fact take the place of what the declaration assumes."}};

Finding check_beyond_boundary(PanelAccount& account) {
  OpenFinding finding = account.open(kBeyondBoundaryCheck);
  MaterialRows rows;
  ExactSum sum;
  for (std::size_t row = 0; row < account.materials.size(); ++row) {
    const std::size_t gaps = finding.evidence_gaps();
    const auto units = read_declared_units(account, row, Listing::amount_only, finding);
    const auto per_unit = read_module_gwp(account.declared(row), Module::d, true, finding);
    if (!units || !per_unit) continue;
    const Gwp gwp = scaled(*per_unit, *units);
    if (finding.evidence_gaps() == gaps) account.materials[row].at(Module::d) = gwp;
    sum.add(gwp.total());
    rows.materials.emplace_back(account.index(row));
    rows.cells.push_back({gwp.total()});
  }
  FindingBuilder& builder = finding.builder();
  add_material_table(builder, account.inputs.project, rows, "By material, GWP-total",
                     {{"material", ""}, {"D", "kg CO2e"}});
  if (!finding.complete()) return finding.close_incomplete();
  builder.step("module D", "D", sum.total(), "kg CO2e", "D = sum(D)");
  builder.note(
      "Figures of a row are the amount q times the declared figure, to the milligram. Module D lies outside the life "
      "of "
      "the panel and is added to no total. Declarations, their units and validity are listed in carbon.a1_a3.");
  return builder.inform(sum.total(), "kg CO2e");
}

}  // namespace panel_dossier::carbon
