#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>

#include "core/api/support/text_encoding.h"
#include "core/cli/commands.h"
#include "core/cli/terminal/exit_status.h"
#include "core/trace/comparison_text.h"
#include "core/trace/results_reader.h"

namespace panel_dossier {

namespace {

struct CompareOptions {
  std::filesystem::path before;
  std::filesystem::path after;
  bool as_json = false;
};

int compare_builds(const CompareOptions& options) {
  const ResultsDocument before = results_from_file(options.before / "results.json");
  const ResultsDocument after = results_from_file(options.after / "results.json", &before);
  const Comparison comparison = compare(before, after);
  std::cout << (options.as_json ? comparison_json(comparison) : visible_lines(comparison_text(comparison)));
  return comparison.worse() > 0 ? exit_status::kVerdictFails : exit_status::kClean;
}

}  // namespace

void add_compare_command(CLI::App& app, int& status) {
  auto options = std::make_shared<CompareOptions>();
  CLI::App* command = app.add_subcommand(
      "compare",
      "Say what changed between two builds: the causes, which verdicts moved and how far the figures; exit status 1 "
      "when "
      "something became worse. The setting changes.least_move_percent says which figures are worth a line");
  command->add_option("OLD_DIR", options->before, "Output folder of the earlier build")->required();
  command->add_option("NEW_DIR", options->after, "Output folder of the later build")->required();
  command->add_flag("--json", options->as_json, "Print it for other programs, as schemas/comparison.schema.json says");
  command->callback(
      [options, &status] { status = refusing_unreadable_input([&] { return compare_builds(*options); }); });
}

}  // namespace panel_dossier
