// What a build found, in the words of its log and as an exit status.
#pragma once

#include <spdlog/logger.h>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/trace/compare.h"
#include "core/trace/open_points.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

/// How many findings reached each verdict.
struct VerdictCounts {
  std::size_t pass = 0;
  std::size_t fail = 0;
  std::size_t evidence_needed = 0;
  std::size_t not_assessed = 0;
  std::size_t information = 0;
};

/// Over all panels and the project.
VerdictCounts count_verdicts(const ResultsDocument& document);

/// `12 pass, 1 fail, 0 evidence needed, 3 not assessed, 4 information`.
std::string to_string(const VerdictCounts& counts);

/// Logs the failures of the environment, the open points, what changed, and last the counts.
void log_outcome(spdlog::logger& log, const ResultsDocument& document, const std::vector<OpenPoint>& points,
                 const std::optional<std::vector<Change>>& changes);

int status_of(const ResultsDocument& document);

}  // namespace panel_dossier
