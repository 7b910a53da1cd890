#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "core/cli/commands.h"
#include "core/cli/forms/gap_table.h"
#include "core/cli/forms/project_forms.h"
#include "core/cli/inputs.h"
#include "core/cli/terminal/exit_status.h"
#include "core/cli/terminal/locations.h"

namespace panel_dossier {

namespace {

struct InitOptions {
  InputOptions input;
  PluginOptions plugins;
  std::filesystem::path folder;
};

/// One page: where the project stands and what comes next, with the commands.
std::string next_steps(const InitOptions& options, const Inputs& inputs, const ProjectGaps& gaps) {
  const Project& project = *inputs.intake.project;
  const std::string file = options.input.export_file.string();
  std::string text = "What to do next for '" + project.name + "'\n\n";
  text += "The export has " + std::to_string(project.panels.size()) + " panels of " +
          std::to_string(project.materials.size()) + " materials.\n\n";
  text +=
      "1. settings.json: take the // away from the lines that matter and put the values in; those marked\n"
      "   [needed: ...] first. Jurisdiction, day of assessment and use of the building open most.\n"
      "2. library/: one row a material, window, fixing or type of panel, holding exactly those of this export.\n"
      "   An office keeps these tables once for all its projects: put the folder where they all can name it\n"
      "   (setting `library`), and let rules by pattern, classification or article number join the names.\n"
      "   Declarations (ILCD+EPD or CSV) go into library/declarations, reports and certificates beside\n"
      "   library/evidence.csv, which says what each document is.\n"
      "3. records/: what workshop and site write down, one row a panel; add rows as they come, the newest counts.\n"
      "4. See what is still missing, as often as you like:\n\n"
      "     panel-dossier check " +
      file +
      "\n"
      "     panel-dossier check " +
      file +
      " --forms MISSING    the same as tables to fill in\n\n"
      "5. Make the dossier:\n\n"
      "     panel-dossier build " +
      file +
      " --out out\n\n"
      "Where the project stands today:\n\n";
  return text + gap_table(gaps.gaps, gaps.disciplines, gaps.records);
}

int init(const InitOptions& options) {
  const auto [plugins, input, inputs] = read_with_plugins(options.plugins, options.input);
  print_diagnostics(inputs.diagnostics);
  if (inputs.refused()) {
    std::cerr << "panel-dossier: error: the input is refused; nothing was written\n";
    return exit_status::kInputRefused;
  }
  const std::filesystem::path folder =
      options.folder.empty() ? std::filesystem::absolute(input.export_file).parent_path() : options.folder;
  const ProjectGaps gaps = find_gaps(inputs, plugins.plugins, input);
  std::vector<PlannedFile> files = project_forms(*inputs.intake.project, gaps, input, plugins.plugins, folder, true);
  files.push_back({folder / "next-steps.txt", next_steps(options, inputs, gaps), true});
  write_forms(std::move(files));
  std::cout << "next: read " << (folder / "next-steps.txt").string() << '\n';
  return plugins.refused.empty() ? exit_status::kClean : exit_status::kIncomplete;
}

}  // namespace

void add_init_command(CLI::App& app, int& status) {
  auto options = std::make_shared<InitOptions>();
  options->input.schema_dir = default_schema_dir();
  CLI::App* command =
      app.add_subcommand("init", "Write a first settings file, and forms for library and records, for an export");
  command->add_option("EXPORT", options->input.export_file, "The project's export")->required();
  command->add_option("--into", options->folder, "Folder for the files (default: that of the export)");
  command->add_option("--settings", options->input.settings_file,
                      "Project settings that are there already (default: settings.json beside the export)");
  command->add_option("--schemas", options->input.schema_dir, "Folder of the XSD");
  add_plugin_options(*command, options->plugins);
  command->callback([options, &status] { status = refusing_unreadable_input([&] { return init(*options); }); });
}

}  // namespace panel_dossier
