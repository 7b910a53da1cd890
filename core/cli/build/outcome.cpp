#include "core/cli/build/outcome.h"

#include <spdlog/spdlog.h>

#include <algorithm>

#include "core/cli/terminal/exit_status.h"

namespace panel_dossier {

namespace {

void add(VerdictCounts& counts, const std::vector<RecordedFinding>& findings) {
  for (const RecordedFinding& finding : findings) {
    switch (finding.verdict) {
      case Verdict::pass: ++counts.pass; break;
      case Verdict::fail: ++counts.fail; break;
      case Verdict::evidence_needed: ++counts.evidence_needed; break;
      case Verdict::not_assessed: ++counts.not_assessed; break;
      case Verdict::information: ++counts.information; break;
    }
  }
}

/// One line a cause, so that the log alone tells what to look at.
void log_open_points(spdlog::logger& log, const std::vector<OpenPoint>& points) {
  for (const OpenPoint& point : points) {
    const auto level = point.verdict == Verdict::fail ? spdlog::level::err : spdlog::level::warn;
    log.log(level, "{}: {}: {}: {}", subject_of(point), point.check, std::string(to_string(point.verdict)), point.what);
  }
}

/// `causes: 1 fails, 2 need evidence, 3 not assessed; claims withheld: 4`.
std::string state_of(const std::vector<OpenPoint>& points, const ResultsDocument& document) {
  return "causes: " + std::to_string(count_of(points, Verdict::fail)) + " fail, " +
         std::to_string(count_of(points, Verdict::evidence_needed)) + " evidence needed, " +
         std::to_string(count_of(points, Verdict::not_assessed)) +
         " not assessed (all in open-points.csv); claims withheld: " + std::to_string(document.build.withheld.size());
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

void log_outcome(spdlog::logger& log, const ResultsDocument& document, const std::vector<OpenPoint>& points,
                 const std::optional<std::vector<Change>>& changes) {
  for (const std::string& failure : document.build.failures) log.error("{}", failure);
  log_open_points(log, in_short(points, document));
  if (changes) {
    const auto worse =
        std::count_if(changes->begin(), changes->end(), [](const Change& change) { return change.worse; });
    log.info("since the previous issue: {} changes, {} verdicts worse", changes->size(), worse);
  }
  log.info("hash tree root {}", document.build.hash_tree_root);
  log.info("{} panels: {}", document.panels.size(), to_string(count_verdicts(document)));
  log.info("{}", state_of(points, document));
  if (!document.build.signed_for_issue) {
    log.warn("not signed for issue: a demonstration key was used; give the practice's key with --sign-key");
  }
}

int status_of(const ResultsDocument& document) {
  if (document.build.incomplete) return exit_status::kIncomplete;
  const VerdictCounts counts = count_verdicts(document);
  if (counts.fail > 0) return exit_status::kVerdictFails;
  return counts.evidence_needed + counts.not_assessed > 0 ? exit_status::kOpen : exit_status::kClean;
}

}  // namespace panel_dossier
