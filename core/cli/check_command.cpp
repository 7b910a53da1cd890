#include <CLI/CLI.hpp>
#include <iostream>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "core/api/support/text_encoding.h"
#include "core/cli/commands.h"
#include "core/cli/forms/gap_table.h"
#include "core/cli/forms/project_forms.h"
#include "core/cli/ids_command.h"
#include "core/cli/inputs.h"
#include "core/cli/terminal/exit_status.h"
#include "core/cli/terminal/locations.h"
#include "core/intake/panels/panel_choice.h"

namespace panel_dossier {

namespace {

using Counts = std::map<std::string, std::size_t>;

void print_counts(const char* heading, const Counts& counts) {
  std::size_t total = 0;
  for (const auto& [name, count] : counts) total += count;
  std::cout << heading << ": " << total << '\n';
  for (const auto& [name, count] : counts) std::cout << "  " << visible_text(name) << ": " << count << '\n';
}

void print_project(const Project& project) {
  Counts types;
  Counts parts;
  Counts openings;
  for (const Panel& panel : project.panels) {
    ++types[panel.type.empty() ? "(no type)" : panel.type];
    for (const Part& part : panel.parts) ++parts[std::string(to_string(part.kind))];
    for (const Opening& opening : panel.openings) {
      ++openings[opening.filling_entity.empty() ? "open" : opening.filling_entity];
    }
  }
  std::cout << "project: " << visible_text(project.name) << '\n' << "storeys: " << project.storeys.size() << '\n';
  print_counts("panels by type", types);
  print_counts("parts by kind", parts);
  print_counts("openings by filling", openings);
  std::cout << "materials: " << project.materials.size() << '\n';
  for (const Material& material : project.materials) std::cout << "  " << visible_text(material.name) << '\n';
  std::cout << "evidence: " << project.evidence.size() << '\n';
  for (const Evidence& evidence : project.evidence) {
    std::cout << "  " << visible_text(evidence.id + " " + evidence.location) << ": " << to_string(evidence.status)
              << '\n';
  }
}

void print_neighbours(const std::vector<Neighbour>& neighbours) {
  Counts counts;
  for (const Neighbour& neighbour : neighbours) {
    ++counts[std::string(to_string(neighbour.kind)) + (neighbour.bounds ? "" : " without a shape that is read")];
  }
  print_counts("beside the panels", counts);
}

struct CheckOptions {
  InputOptions input;
  IdsOptions ids;
  PluginOptions plugins;
  std::filesystem::path forms;  ///< folder for what is missing, as tables to fill in; empty: none are written
};

/// What each discipline misses, where it can come from and how many panels wait for it. Runs the checks.
void print_gaps(const CheckOptions& options, const InputOptions& input, const Inputs& inputs,
                const std::vector<LoadedPlugin>& plugins) {
  const ProjectGaps gaps = find_gaps(inputs, plugins, input);
  std::cout << "what is missing, where it can come from, and how many panels wait for it:\n"
            << visible_lines(gap_table(gaps.gaps, gaps.disciplines, gaps.records));
  if (options.forms.empty()) return;
  write_forms(project_forms(*inputs.intake.project, gaps, input, plugins, options.forms, false));
}

int check(const CheckOptions& options) {
  const auto [plugins, input, inputs] = read_with_plugins(options.plugins, options.input);
  print_diagnostics(inputs.diagnostics);
  if (!inputs.intake.schema_version.empty())
    std::cout << "schema: " << visible_text(inputs.intake.schema_version) << '\n';
  for (const std::string& line : choice_in_words(inputs.intake.panel_choice)) std::cout << visible_text(line) << '\n';
  if (inputs.intake.project) {
    print_project(*inputs.intake.project);
    print_neighbours(inputs.intake.project->neighbours);
  }
  print_counts("entities skipped", inputs.intake.skipped);
  if (!inputs.refused() && !plugins.plugins.empty()) print_gaps(options, input, inputs, plugins.plugins);
  std::cout << (inputs.refused() ? "the input is refused; mend the errors above and export again\n"
                                 : "the input can be built\n");
  if (inputs.refused()) return exit_status::kInputRefused;
  return plugins.refused.empty() ? exit_status::kClean : exit_status::kIncomplete;
}

}  // namespace

void add_check_command(CLI::App& app, int& status) {
  auto options = std::make_shared<CheckOptions>();
  options->input.schema_dir = default_schema_dir();
  CLI::App* command = app.add_subcommand("check", "Read and validate an export, and say what it holds");
  command
      ->add_option("PROJECT", options->input.export_file,
                   "Export as ifcXML, .ifc or .ifczip (IFC2x3 TC1, IFC4 ADD2 TC1 or IFC4X3 ADD2)")
      ->required();
  command->add_option("--settings", options->input.settings_file,
                      "Project settings (default: settings.json beside the export)");
  command->add_option("--schemas", options->input.schema_dir, "Folder of the XSD");
  command->add_option("--forms", options->forms,
                      "Write what is missing into this folder, as settings and tables to fill in and read back");
  add_plugin_options(*command, options->plugins);
  CLI::Option* ids = command->add_option("--ids", options->ids.ids_file,
                                         "Hold the export against this file of requirements (IDS 1.0) instead");
  command->add_option("--report", options->ids.report_file, "Write what does not hold to this CSV file")->needs(ids);
  command->callback([options, &status] {
    status = refusing_unreadable_input([&] {
      if (options->ids.ids_file.empty()) return check(*options);
      return check_against_ids(options->ids, options->input.export_file, options->input.schema_dir);
    });
  });
}

}  // namespace panel_dossier
