#include "plugins/carbon/project_totals.h"

#include <string>
#include <string_view>

#include "core/api/exact_sum.h"
#include "core/api/panel_values.h"
#include "plugins/carbon/open_finding.h"
#include "plugins/carbon/total_per_area.h"

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
    {"carbon.a5", "Waste and assembly A5 of all panels (fossil and land use)", "EN 15978:2011, 8.5", "kg CO2e", "", ""},
    {"carbon.c1_c4", "End of life C1–C4 of all panels", "EN 15978:2011, 8.7", "kg CO2e", "C,bio",
     "of that, biogenic carbon returned (+1)"},
    {"carbon.d", "Benefits and loads beyond the boundary D of all panels", "EN 15978:2011, 8.8", "kg CO2e", "", ""},
    {"carbon.biogenic_storage", "Carbon dioxide stored in the wood of all panels", "EN 16449:2014, formula (1)",
     "kg CO2", "", ""},
};

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

double sum_of_values(const PanelValues& values) {
  ExactSum sum;
  for (const PanelValue& entry : values.entries) sum.add(entry.value);
  return sum.total();
}

double sum_of_steps(const PanelValues& values, std::string_view symbol) {
  ExactSum sum;
  for (const PanelValue& entry : values.entries) sum.add(step_value(*entry.finding, symbol));
  return sum.total();
}

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

/// The whole project by module; only modules that every panel has a value for.
Table module_table(const std::vector<PanelFindings>& panels) {
  Table table{
      "By module, all panels",
      {{"module", ""}, {"GWP-fossil + GWP-luluc", "kg CO2e"}, {"GWP-biogenic", "kg CO2e"}, {"GWP-total", "kg CO2e"}},
      {}};
  const auto add = [&](const char* module, std::string_view check, std::string_view biogenic_symbol,
                       bool value_is_total) {
    const PanelValues values = panel_values(panels, check);
    if (!values.whole()) return;
    const double value = sum_of_values(values);
    const double biogenic = biogenic_symbol.empty() ? 0.0 : sum_of_steps(values, biogenic_symbol);
    const double fossil = value_is_total ? value - biogenic : value;
    table.rows.push_back({module, fossil, biogenic, fossil + biogenic});
  };
  add("A1–A3", "carbon.a1_a3", "A1–A3,bio", false);
  add("A4", "carbon.a4", "", false);
  add("A5", "carbon.a5", "", false);
  add("C1–C4", "carbon.c1_c4", "C,bio", true);
  return table;
}

Finding total_of_project(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings) {
  OpenFinding finding("carbon.total_per_area", "A1–A5 of all panels for each m² of wall, without biogenic carbon", "",
                      "EN 15978:2011, 8.4 and 8.5");
  const PanelValues values = panel_values(panels, "carbon.total_per_area");
  add_panels(project, values, "carbon.total_per_area", finding);
  finding.builder().table(module_table(panels));
  finding.builder().note(
      "Biogenic carbon taken up in A1–A3 (−1) is returned in C1–C4 (+1); over the whole life it adds up to nothing or "
      "nearly so. Module D lies outside the boundary and stands in a finding of its own.");
  if (!finding.complete()) return finding.close_incomplete();
  ExactSum area;
  for (const PanelValue& entry : values.entries) area.add(entry.panel->gross_area_m2());
  finding.builder().step("gross wall area", "A", area.total(), "m²");
  return judge_total(finding, settings, sum_of_steps(values, "ΣA1–A5"), area.total());
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
  finding.builder().step("of that, with claim and document", "V_doc", documented, "m³");
  if (finding.builder().incomplete()) return finding.close_incomplete();
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
                                   const Settings& settings) {
  std::vector<Finding> findings;
  for (const Summed& summed : kSummed) findings.push_back(sum_check(summed, project, panels));
  findings.push_back(total_of_project(project, panels, settings));
  findings.push_back(custody_of_project(project, panels));
  return findings;
}

}  // namespace panel_dossier::carbon
