#include "core/cli/terminal/verdict_counts.h"

#include <vector>

namespace panel_dossier {

namespace {

void add(VerdictCounts& counts, const std::vector<Finding>& findings) {
  for (const Finding& finding : findings) {
    switch (finding.verdict) {
      case Verdict::pass: ++counts.pass; break;
      case Verdict::fail: ++counts.fail; break;
      case Verdict::evidence_needed: ++counts.evidence_needed; break;
      case Verdict::not_assessed: ++counts.not_assessed; break;
      case Verdict::information: ++counts.information; break;
    }
  }
}

}  // namespace

VerdictCounts count_verdicts(const ResultsDocument& document) {
  VerdictCounts counts;
  for (const PanelSummary& panel : document.panels) add(counts, panel.findings);
  add(counts, document.project_findings);
  return counts;
}

std::string to_string(const VerdictCounts& counts) {
  return std::to_string(counts.pass) + " pass, " + std::to_string(counts.fail) + " fail, " +
         std::to_string(counts.evidence_needed) + " evidence needed, " + std::to_string(counts.not_assessed) +
         " not assessed, " + std::to_string(counts.information) + " information";
}

}  // namespace panel_dossier
