#include "core/trace/verdict_totals.h"

#include <vector>

namespace panel_dossier {

namespace {

void add(VerdictTotals& totals, const std::vector<RecordedFinding>& findings) {
  for (const RecordedFinding& finding : findings) {
    switch (finding.verdict) {
      case Verdict::pass: ++totals.pass; break;
      case Verdict::fail: ++totals.fail; break;
      case Verdict::evidence_needed: ++totals.evidence_needed; break;
      case Verdict::not_assessed: ++totals.not_assessed; break;
      case Verdict::information: ++totals.information; break;
    }
  }
}

}  // namespace

VerdictTotals verdict_totals(const ResultsDocument& document) {
  VerdictTotals totals;
  for (const PanelSummary& panel : document.panels) add(totals, panel.findings);
  add(totals, document.project_findings);
  return totals;
}

std::string to_string(const VerdictTotals& totals) {
  return std::to_string(totals.pass) + " pass, " + std::to_string(totals.fail) + " fail, " +
         std::to_string(totals.evidence_needed) + " evidence needed, " + std::to_string(totals.not_assessed) +
         " not assessed, " + std::to_string(totals.information) + " information";
}

}  // namespace panel_dossier
