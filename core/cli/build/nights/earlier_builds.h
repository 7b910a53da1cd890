// A build beside those that came before it.
#pragma once

#include <spdlog/logger.h>

#include <filesystem>
#include <vector>

#include "core/cli/build/nights/kept_builds.h"
#include "core/trace/compare.h"
#include "core/trace/history.h"
#include "core/trace/open_points.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

struct EarlierBuilds {
  std::vector<Comparison> comparisons;  ///< with the last issue, then with the last build where it is another
  History history;                      ///< up to and with this build
};

/// Compares the document, to which `points` belong, with the last issue that is kept and with the build in `previous`
/// (empty: the one in `out`). What nobody named and cannot be read is told in the log and left out; a `previous` that
/// cannot be read throws std::runtime_error. Adds a warning to the document where an earlier build bears a later time.
EarlierBuilds compare_with_earlier(ResultsDocument& document, const std::vector<OpenPoint>& points,
                                   const KeptBuilds& kept, const std::filesystem::path& out,
                                   const std::filesystem::path& previous, spdlog::logger& log);

}  // namespace panel_dossier
