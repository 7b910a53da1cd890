#include "plugins/carbon/totals/project_sums.h"

#include <algorithm>
#include <array>
#include <utility>

#include "core/api/support/exact_sum.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/declarations/declaration_facts.h"
#include "plugins/carbon/totals/targets.h"
#include "plugins/carbon/totals/uncertainty.h"

namespace panel_dossier::carbon {

namespace {

constexpr PerArea kUpfront{"A1–A5, without biogenic carbon", "ΣA1–A5", "ΣA1–A5 = A1–A3 + A4 + A5"};
/// Of the project, whose panels' sums stand in their findings.
constexpr PerArea kUpfrontOfPanels{kUpfront.name, kUpfront.symbol, ""};

/// Values of the finding in kg CO2e, without biogenic carbon: A1–A5, and A1–A3 of that.
constexpr const char* kUpfrontValue = "upfront";
constexpr const char* kProductStageValue = "product_stage";
/// And by which each may be off, where that is known.
constexpr const char* kUpfrontRange = "upfront_range";
constexpr const char* kProductStageRange = "product_stage_range";

double product_stage_of(const MaterialAccount& entry) {
  return entry.at(Module::a1_a3).value_or(Gwp{}).fossil_and_luluc();
}

double upfront_of(const MaterialAccount& entry) {
  return ExactSum()
      .add(product_stage_of(entry))
      .add(entry.at(Module::a4).value_or(Gwp{}).fossil_and_luluc())
      .add(entry.at(Module::a5).value_or(Gwp{}).fossil_and_luluc())
      .total();
}

}  // namespace

std::optional<double> add_per_area(OpenFinding& finding, const PerArea& what, double sum_kg, const WallAreas& areas) {
  FindingBuilder& builder = finding.builder();
  const std::string symbol(what.symbol);
  builder.step(std::string(what.name), symbol, sum_kg, "kg CO2e", std::string(what.formula));
  builder.step("gross wall area", "A_g", areas.gross_m2, "m²");
  builder.step("openings", "A_o", areas.openings_m2, "m²");
  builder.step("net wall area", "A", areas.net_m2(), "m²", "A = A_g − A_o");
  if (areas.net_m2() <= 0.0) {
    builder.missing("openings leave no net wall area; check their sizes in the export");
    return std::nullopt;
  }
  const double per_area = sum_kg / areas.net_m2();
  builder.step("for each m² of net wall area", "a", per_area, "kg CO2e/m²", "a = " + symbol + " / A");
  builder.note(
      "Windows and doors are not in the sum, so their openings are not in the area either: the value is that of the "
      "wall between them.");
  return per_area;
}

const CheckDeclaration kTotalPerAreaCheck{
    .id = "carbon.total_per_area",
    .title = "A1–A5 for each m² of wall, without biogenic carbon",
    .project_title = "A1–A5 of all panels for each m² of wall, without biogenic carbon",
    .sentence =
        "The sum of GWP-fossil and GWP-luluc of A1 to A5 for each m² of net wall is at most each of the project's "
        "targets for A1–A5, and that of A1 to A3 each of those for A1–A3, that are in force and apply to the "
        "panel, its type or the project, with what generic data may be off.",
    .clause = "EN 15978:2011, 8.4 and 8.5",
    .units = {"kg CO2e/m²"},
    .kind = CheckKind::limit,
    .scope = CheckScope::panels_and_project,
    .inputs = with_model(merged_inputs({target_inputs(), uncertainty_inputs(), upfront_inputs()})),
    .limits = {"Windows and doors, which have no declaration here, and their openings, which are not in the area.",
               "Uncertainty of the distance, the vehicle and the assembly on site, which are the project's figures.",
               "Targets for a whole building and each m² of its floor, by which no wall passes or fails."}};

Finding check_total_per_area(const PanelAccount& account, const Finding& a1_a3, const Finding& a4, const Finding& a5) {
  OpenFinding finding = account.open(kTotalPerAreaCheck);
  FindingBuilder& builder = finding.builder();
  ExactSum sum;
  for (const auto& [module, symbol] : {std::pair{&a1_a3, "A1–A3"}, {&a4, "A4"}, {&a5, "A5"}}) {
    const auto value = finding.value_of(*module);
    if (!value) continue;
    builder.step("from " + module->check, symbol, *value, "kg CO2e");
    sum.add(*value);
  }
  const auto area = builder.positive("gross area of the panel", "A_g", "m²",
                                     Sourced<double>{account.panel.gross_area_m2(), account.panel.origin}, {});
  if (!finding.complete()) return finding.close_incomplete();
  const WallAreas areas{*area, account.panel.opening_area_m2()};
  const auto per_area = add_per_area(finding, kUpfront, sum.total(), areas);
  if (!per_area) return builder.not_assessed();
  const double product_stage_kg = std::get<double>(a1_a3.value);
  builder.value(kUpfrontValue, sum.total(), "kg CO2e").value(kProductStageValue, product_stage_kg, "kg CO2e");
  const Uncertainty uncertainty(account, builder);
  const auto range_kg = uncertainty.kg(upfront_of);
  const auto product_range_kg = uncertainty.kg(product_stage_of);
  if (range_kg && product_range_kg) {
    builder.value(kUpfrontRange, *range_kg, "kg CO2e").value(kProductStageRange, *product_range_kg, "kg CO2e");
    builder.step("uncertainty of the declarations", "Δ", *range_kg, "kg CO2e");
    builder.step("for each m² of net wall area", "Δ_a", *range_kg / areas.net_m2(), "kg CO2e/m²", "Δ_a = Δ / A");
    builder.note("Δ is the sum over the materials of u · |A1–A5|, as if all figures were off the same way.");
  }
  if (!uncertainty.needed().empty()) builder.value_text(kRangeNeeded, uncertainty.needed());
  return judge_targets(
      finding, account.inputs.settings,
      {{"",
        {kEveryPanel, account.panel.type},
        {{TargetModules::a1_a5, *per_area, over(range_kg, areas.net_m2())},
         {TargetModules::a1_a3, product_stage_kg / areas.net_m2(), over(product_range_kg, areas.net_m2())}}}},
      uncertainty.needed());
}

Finding total_per_area_of_project(const RunInputs& inputs, const std::vector<PanelFindings>& panels) {
  OpenFinding finding(kTotalPerAreaCheck, "");
  const PanelValues values = panel_values(panels, kTotalPerAreaCheck.id);
  add_panels(inputs.project, values, kTotalPerAreaCheck.id, finding);
  if (!finding.complete()) return finding.close_incomplete();
  const double upfront_kg = sum_of(values, kUpfrontValue, "kg CO2e");
  const auto per_area = add_per_area(finding, kUpfrontOfPanels, upfront_kg, areas_of(values));
  if (!per_area) return finding.builder().not_assessed();
  const auto values_of = [](const PanelValues& some) -> std::vector<TargetValue> {
    const double net_m2 = areas_of(some).net_m2();
    return {{TargetModules::a1_a5, sum_of(some, kUpfrontValue, "kg CO2e") / net_m2,
             over(sum_where_all_have(some, kUpfrontRange, "kg CO2e"), net_m2)},
            {TargetModules::a1_a3, sum_of(some, kProductStageValue, "kg CO2e") / net_m2,
             over(sum_where_all_have(some, kProductStageRange, "kg CO2e"), net_m2)}};
  };
  std::vector<TargetSubject> subjects;
  for (const auto& [type, of_type] : by_type(values)) {
    subjects.push_back({type_name(type), {kEveryPanel, type}, values_of(of_type)});
  }
  subjects.push_back({kAllPanels, {kWholeProject, kEveryPanel}, values_of(values)});
  return judge_targets(finding, inputs.settings, subjects, range_needed_of(values));
}

namespace {

double sum_of_values(const PanelValues& values) {
  ExactSum sum;
  for (const PanelValue& entry : values.entries) sum.add(entry.value);
  return sum.total();
}

}  // namespace

Finding sum_check(const Summed& summed, const Project& project, const std::vector<PanelFindings>& panels) {
  OpenFinding finding(summed.check, "");
  FindingBuilder& builder = finding.builder();
  if (!summed.check.other_clauses.empty()) builder.clause(summed.check.other_clauses.front());
  const PanelValues values = panel_values(panels, summed.check.id);
  add_panels(project, values, summed.check.id, finding);
  const std::string& unit = summed.check.units.front();
  builder.step("sum over these panels", "Σ", sum_of_values(values), unit);
  if (summed.biogenic_symbol != nullptr) {
    const double biogenic = sum_of(values, kBiogenicValue, unit);
    builder.step("GWP-biogenic, shown apart", summed.biogenic_symbol, biogenic, unit);
  }
  if (!finding.complete()) return finding.close_incomplete();
  return builder.inform(sum_of_values(values), unit);
}

void add_panels(const Project& project, const PanelValues& values, std::string_view check, OpenFinding& finding) {
  finding.builder().number("panels in the sum", "n", "",
                           Sourced<double>{static_cast<double>(values.entries.size()), project.origin}, {});
  if (values.whole()) return;
  if (values.lacks_evidence_only) {
    finding.evidence_gap(values.what_is_missing(check));
  } else {
    finding.builder().missing(values.what_is_missing(check));
  }
}

double sum_of(const PanelValues& values, std::string_view id, std::string_view unit) {
  ExactSum sum;
  for (const PanelValue& entry : values.entries) sum.add(value_of(*entry.finding, id, unit));
  return sum.total();
}

std::optional<double> sum_where_all_have(const PanelValues& values, std::string_view id, std::string_view unit) {
  ExactSum sum;
  for (const PanelValue& entry : values.entries) {
    const auto value = find_value(*entry.finding, id, unit);
    if (!value) return std::nullopt;
    sum.add(*value);
  }
  return sum.total();
}

WallAreas areas_of(const PanelValues& values) {
  ExactSum gross;
  ExactSum openings;
  for (const PanelValue& entry : values.entries) {
    gross.add(entry.panel->gross_area_m2());
    openings.add(entry.panel->opening_area_m2());
  }
  return {gross.total(), openings.total()};
}

std::string range_needed_of(const PanelValues& values) {
  for (const PanelValue& entry : values.entries) {
    const auto& named = entry.finding->values;
    if (std::any_of(named.begin(), named.end(), [](const NamedValue& one) { return one.id == kRangeNeeded; })) {
      return text_of(*entry.finding, kRangeNeeded) + " (panel " + entry.panel->mark + ")";
    }
  }
  return {};
}

std::optional<double> over(std::optional<double> kg, double area_m2) {
  if (kg) *kg /= area_m2;
  return kg;
}

std::map<std::string, PanelValues> by_type(const PanelValues& values) {
  std::map<std::string, PanelValues> types;
  for (const PanelValue& entry : values.entries) types[entry.panel->type].entries.push_back(entry);
  return types;
}

std::string type_name(const std::string& type) {
  return type.empty() ? "no type" : type;
}

}  // namespace panel_dossier::carbon
