#include "plugins/carbon/totals/project_totals.h"

#include <string>
#include <string_view>

#include "core/api/finding/panel_values.h"
#include "plugins/carbon/account/open_finding.h"
#include "plugins/carbon/account/per_area.h"
#include "plugins/carbon/declarations/project_declarations.h"
#include "plugins/carbon/totals/judged_targets.h"
#include "plugins/carbon/totals/project_core_indicators.h"
#include "plugins/carbon/totals/project_sums.h"
#include "plugins/carbon/totals/project_whole_life.h"

namespace panel_dossier::carbon {

namespace {

/// A check that is summed over the panels, and the step that stands beside its value, if any.
struct Summed {
  std::string_view check;
  std::string_view title;
  std::string_view clause;
  std::string_view unit;
  std::string_view biogenic_symbol;
  std::string_view biogenic_name;
};

constexpr Summed kSummed[] = {
    {"carbon.a1_a3", "Product stage A1–A3 of all panels (fossil and land use)", "EN 15978:2011, 8.4", "kg CO2e",
     "A1–A3,bio", "GWP-biogenic, shown apart"},
    {"carbon.a4", "Transport to the site A4 of all panels", "EN 15978:2011, 8.5", "kg CO2e", "", ""},
    {"carbon.a5", "Waste and assembly A5 of all panels (fossil and land use)", "EN 15978:2011, 8.5", "kg CO2e",
     "A5,bio", "GWP-biogenic, shown apart"},
    {"carbon.b4", "Replacement B4 of all panels over the study period (fossil and land use)",
     "EN 15978:2011, 8.6 and 9.3.3", "kg CO2e", "B4,bio", "GWP-biogenic, shown apart"},
    {"carbon.c1_c4", "End of life C1–C4 of all panels", "EN 15978:2011, 8.7", "kg CO2e", "C,bio",
     "of that, biogenic carbon returned (+1)"},
    {"carbon.d", "Benefits and loads beyond the boundary D of all panels", "EN 15978:2011, 8.8", "kg CO2e", "", ""},
    {"carbon.biogenic_storage", "Carbon dioxide stored in the wood of all panels", "EN 16449:2014, formula (1)",
     "kg CO2", "", ""},
};

Finding sum_check(const Summed& summed, const Project& project, const std::vector<PanelFindings>& panels) {
  OpenFinding finding(std::string(summed.check), std::string(summed.title), "", std::string(summed.clause));
  const PanelValues values = panel_values(panels, summed.check);
  add_panels(project, values, summed.check, finding);
  const std::string unit(summed.unit);
  finding.builder().step("sum over these panels", "Σ", sum_of_values(values), unit);
  if (!summed.biogenic_symbol.empty()) {
    finding.builder().step(std::string(summed.biogenic_name), std::string(summed.biogenic_symbol),
                           sum_of_steps(values, summed.biogenic_symbol), unit);
  }
  if (!finding.complete()) return finding.close_incomplete();
  return finding.builder().inform(sum_of_values(values), unit);
}

Finding total_of_project(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings) {
  OpenFinding finding("carbon.total_per_area", "A1–A5 of all panels for each m² of wall, without biogenic carbon", "",
                      "EN 15978:2011, 8.4 and 8.5");
  const PanelValues values = panel_values(panels, "carbon.total_per_area");
  add_panels(project, values, "carbon.total_per_area", finding);
  if (!finding.complete()) return finding.close_incomplete();
  const WallAreas areas = areas_of(values);
  const auto per_area = add_per_area(finding, kUpfront, sum_of_steps(values, kUpfront.symbol), areas);
  if (!per_area) return finding.builder().not_assessed();
  const auto upfront_of = [](const PanelValues& some) -> std::vector<TargetValue> {
    const double net_m2 = areas_of(some).net_m2();
    return {{TargetModules::a1_a5, sum_of_steps(some, kUpfront.symbol) / net_m2},
            {TargetModules::a1_a3, sum_of_steps(some, kProductStage) / net_m2}};
  };
  std::vector<TargetSubject> subjects;
  for (const auto& [type, of_type] : by_type(values)) {
    subjects.push_back({type_name(type), {kEveryPanel, type}, upfront_of(of_type)});
  }
  subjects.push_back({kAllPanels, {kWholeProject, kEveryPanel}, upfront_of(values)});
  return judge_targets(finding, settings, subjects);
}

/// Marks of the panels whose wood could not be measured. A panel without wood is information, and takes no part.
std::string marks_not_assessed(const std::vector<PanelFindings>& panels, std::string_view check) {
  std::string marks;
  for (const PanelFindings& panel : panels) {
    for (const Finding& finding : panel.findings) {
      if (finding.check != check || finding.verdict != Verdict::not_assessed) continue;
      marks += (marks.empty() ? "" : ", ") + panel.panel->mark;
    }
  }
  return marks;
}

Finding custody_of_project(const Project& project, const std::vector<PanelFindings>& panels) {
  constexpr double kPercent = 100.0;
  OpenFinding finding("carbon.chain_of_custody", "Wood of all panels with a documented chain of custody", "",
                      "ISO 38200:2018");
  finding.builder().basis(Basis::declared).decimals(1);
  const PanelValues values = panel_values(panels, "carbon.chain_of_custody");
  finding.builder().number("panels with wood", "n", "",
                           Sourced<double>{static_cast<double>(values.entries.size()), project.origin}, {});
  const std::string unmeasured = marks_not_assessed(panels, "carbon.chain_of_custody");
  if (!unmeasured.empty()) finding.builder().missing("the wood of these panels could not be measured: " + unmeasured);
  const double all = sum_of_steps(values, "V");
  const double documented = sum_of_steps(values, "V_doc");
  if (all <= 0.0) return finding.builder().not_assessed("no panel holds wood whose volume is known");
  finding.builder().step("wood in all", "V", all, "m³");
  finding.builder().step("of that, with claim, document and date", "V_doc", documented, "m³");
  if (finding.builder().incomplete()) return finding.close_incomplete();
  for (const char* claim : {"CERTIFIED", "CONTROLLED", "RECLAIMED"}) {
    const double volume_m3 = sum_where_stated(values, std::string("V_") + claim);
    if (volume_m3 <= 0.0) continue;
    finding.builder().step(std::string("of that, claimed as ") + claim, std::string("V_") + claim, volume_m3, "m³");
  }
  const double share = documented / all * kPercent;
  finding.builder().step("share by volume", "p", share, "%", "V_doc / V · 100");
  if (documented >= all) return finding.builder().inform(share, "%");
  Finding closed =
      finding.builder().needs_evidence("part of the wood has no documented claim; see the panels' findings");
  closed.value = share;
  closed.unit = "%";
  return closed;
}

}  // namespace

std::vector<Finding> total_project(const Project& project, const std::vector<PanelFindings>& panels,
                                   const Settings& settings, const Tables& tables) {
  std::vector<Finding> findings;
  for (const Summed& summed : kSummed) findings.push_back(sum_check(summed, project, panels));
  findings.push_back(total_of_project(project, panels, settings));
  findings.push_back(whole_life_of_project(project, panels, settings));
  findings.push_back(core_indicators_of_project(project, panels, tables));
  findings.push_back(declarations_of_project(project, panels, tables));
  findings.push_back(custody_of_project(project, panels));
  return findings;
}

}  // namespace panel_dossier::carbon
