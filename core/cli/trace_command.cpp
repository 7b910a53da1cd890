#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>
#include <string>

#include "core/api/support/text_encoding.h"
#include "core/cli/commands.h"
#include "core/cli/terminal/exit_status.h"
#include "core/trace/batch_text.h"
#include "core/trace/panel_text.h"
#include "core/trace/results_reader.h"

namespace panel_dossier {

namespace {

struct TraceOptions {
  std::filesystem::path folder;
  std::string name;  ///< of a panel or batch
};

int trace(const TraceOptions& options) {
  const ResultsDocument document = results_from_file(options.folder / "results.json");
  std::string text;
  if (!names_panel(document, options.name)) text = batch_text(document, options.name);
  std::cout << visible_lines(text.empty() ? panel_text(document, options.name) : text);
  return exit_status::kClean;
}

}  // namespace

void add_trace_command(CLI::App& app, int& status) {
  auto options = std::make_shared<TraceOptions>();
  CLI::App* command = app.add_subcommand(
      "trace", "Say where every figure of one panel comes from, or which panels hold material of one batch");
  command->add_option("DIR", options->folder, "Output folder of a build")->required();
  command->add_option("NAME", options->name, "Mark or GlobalId of the panel, or reference of the batch")->required();
  command->callback([options, &status] { status = refusing_unreadable_input([&] { return trace(*options); }); });
}

}  // namespace panel_dossier
