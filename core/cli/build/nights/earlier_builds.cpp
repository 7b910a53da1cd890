#include "core/cli/build/nights/earlier_builds.h"

#include <spdlog/spdlog.h>

#include <optional>
#include <stdexcept>
#include <string>

#include "core/trace/results_reader.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

/// Shares what it can with the document of this build.
ResultsDocument results_in(const fs::path& folder, const ResultsDocument& document) {
  return results_from_file(folder / "results.json", &document);
}

/// None where there is none, or it cannot be read, which the log tells.
std::optional<ResultsDocument> results_if_readable(const fs::path& folder, const ResultsDocument& document,
                                                   spdlog::logger& log) {
  if (!fs::exists(folder / "results.json")) return std::nullopt;
  try {
    return results_in(folder, document);
  } catch (const std::runtime_error& error) {
    log.warn("the build in '{}' cannot be compared with and is left out: {}", folder.string(), error.what());
    return std::nullopt;
  }
}

/// Times of one form, so that they sort as texts.
void warn_of_later(const BuildSummary& earlier, BuildSummary& build) {
  if (earlier.time_utc <= build.time_utc) return;
  build.warnings.push_back("an earlier build bears the later time " + earlier.time_utc + ", this one " +
                           build.time_utc + ": the machine's clock went backwards, or --build-time was given");
}

bool is_same_build(const ComparedBuild& a, const ComparedBuild& b) {
  return a.time_utc == b.time_utc && a.hash_tree_root == b.hash_tree_root;
}

}  // namespace

EarlierBuilds compare_with_earlier(ResultsDocument& document, const std::vector<OpenPoint>& points,
                                   const KeptBuilds& kept, const fs::path& out, const fs::path& previous,
                                   spdlog::logger& log) {
  EarlierBuilds earlier{{}, kept.history()};
  if (const std::size_t damaged = earlier.history.damaged_lines(); damaged > 0) {
    log.warn("{} lines of the history of builds cannot be read and are left out", damaged);
  }
  if (const auto issue = kept.last_issue()) {
    if (const auto results = results_if_readable(issue->folder, document, log)) {
      earlier.comparisons.push_back(compare(*results, document));
    }
  }
  const auto last = previous.empty() ? results_if_readable(out, document, log) : results_in(previous, document);
  if (last) {
    warn_of_later(last->build, document.build);
    Comparison with_last = compare(*last, document);
    if (earlier.comparisons.empty() || !is_same_build(earlier.comparisons.front().before, with_last.before)) {
      earlier.comparisons.push_back(std::move(with_last));
    }
    // A run that was killed once it had published has not written its line.
    if (previous.empty()) earlier.history.add(history_entry(*last, open_points(*last)));
  }
  for (const std::string& warning : document.build.warnings) log.warn("{}", warning);
  earlier.history.add(history_entry(document, points));
  return earlier;
}

}  // namespace panel_dossier
