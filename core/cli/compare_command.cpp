#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <memory>

#include "core/cli/commands.h"
#include "core/cli/terminal/exit_status.h"
#include "core/intake/document/file_bytes.h"
#include "core/trace/compare.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

namespace {

struct CompareOptions {
  std::filesystem::path before;
  std::filesystem::path after;
};

int compare_builds(const CompareOptions& options) {
  const ResultsDocument before = results_from_json(read_file(options.before / "results.json"));
  const ResultsDocument after = results_from_json(read_file(options.after / "results.json"));
  const std::vector<Change> changes = compare(before, after);
  std::cout << "from the build of " << before.build.time_utc << " to that of " << after.build.time_utc << ": "
            << changes.size() << " changes\n";
  for (const Change& change : changes) std::cout << to_string(change) << '\n';
  const bool worse = std::any_of(changes.begin(), changes.end(), [](const Change& change) { return change.worse; });
  return worse ? exit_status::kVerdictFails : exit_status::kClean;
}

}  // namespace

void add_compare_command(CLI::App& app, int& status) {
  auto options = std::make_shared<CompareOptions>();
  CLI::App* command = app.add_subcommand(
      "compare", "Say what changed between two builds and which verdicts moved; exit status 1 when one became worse");
  command->add_option("OLD_DIR", options->before, "Output folder of the earlier build")->required();
  command->add_option("NEW_DIR", options->after, "Output folder of the later build")->required();
  command->callback(
      [options, &status] { status = refusing_unreadable_input([&] { return compare_builds(*options); }); });
}

}  // namespace panel_dossier
