#include "core/cli/build/outcome.h"

#include <spdlog/spdlog.h>

#include "core/cli/terminal/exit_status.h"
#include "core/trace/verdict_totals.h"

namespace panel_dossier {

namespace {

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

void log_outcome(spdlog::logger& log, const ResultsDocument& document, const std::vector<OpenPoint>& points,
                 const std::vector<Comparison>& comparisons) {
  for (const std::string& failure : document.build.failures) log.error("{}", failure);
  log_open_points(log, in_short(points, document));
  for (const Comparison& comparison : comparisons) {
    log.info("since {}: {} causes, {} changes, {} of them worse", to_string(comparison.before),
             comparison.causes.size(), comparison.changes.size(), comparison.worse());
    for (const Cause& cause : comparison.causes) log.info("{}: {}", to_string(cause), to_string(cause.effects));
  }
  log.info("hash tree root {}", document.build.hash_tree_root);
  log.info("{} panels: {}", document.panels.size(), to_string(verdict_totals(document)));
  log.info("{}", state_of(points, document));
  if (!document.build.signed_for_issue) {
    log.warn("not signed for issue: a demonstration key was used; give the practice's key with --sign-key");
  }
}

int status_of(const ResultsDocument& document) {
  if (document.build.incomplete) return exit_status::kIncomplete;
  const VerdictTotals totals = verdict_totals(document);
  if (totals.fail > 0) return exit_status::kVerdictFails;
  return totals.evidence_needed + totals.not_assessed > 0 ? exit_status::kOpen : exit_status::kClean;
}

}  // namespace panel_dossier
