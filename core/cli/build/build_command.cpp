#include <CLI/CLI.hpp>
#include <array>
#include <chrono>
#include <cstdio>
#include <memory>
#include <string>

#include "core/cli/build/build.h"
#include "core/cli/commands.h"
#include "core/cli/terminal/exit_status.h"

namespace panel_dossier {

namespace {

/// True for an existing date and time of the form `2026-11-25T02:00:00Z`.
bool is_time_utc(const std::string& text) {
  int year = 0;
  unsigned month = 0;
  unsigned day = 0;
  int hour = 0;
  int minute = 0;
  int second = 0;
  std::array<char, 2> rest{};
  if (text.size() != 20 || std::sscanf(text.c_str(), "%4d-%2u-%2uT%2d:%2d:%2d%1[Z]", &year, &month, &day, &hour,
                                       &minute, &second, rest.data()) != 7) {
    return false;
  }
  const std::chrono::year_month_day date{std::chrono::year(year), std::chrono::month(month), std::chrono::day(day)};
  const bool clock_exists = hour >= 0 && hour < 24 && minute >= 0 && minute < 60 && second >= 0 && second < 60;
  return date.ok() && clock_exists;
}

std::string time_fault(const std::string& text) {
  return is_time_utc(text) ? std::string{} : "not an existing time of the form 2026-11-25T02:00:00Z: " + text;
}

void add_input_options(CLI::App& command, BuildOptions& options) {
  command
      .add_option("PROJECT", options.input.export_file,
                  "Export as ifcXML, .ifc or .ifczip (IFC2x3 TC1, IFC4 ADD2 TC1 or IFC4X3 ADD2)")
      ->required();
  command.add_option("--out", options.out, "Folder to write to: a new one, an empty one, or one of an earlier build")
      ->required();
  command.add_option("--settings", options.input.settings_file,
                     "Project settings (default: settings.json beside the export)");
  command.add_option("--previous", options.previous,
                     "Output folder of the previous issue, for the change log (default: what stands in --out)");
  command.add_option("--build-time", options.time_utc, "Fix the build time, for example 2026-11-25T02:00:00Z")
      ->check(CLI::Validator(time_fault, "TIME"));
  command.add_option("--threads", options.threads, "Threads to check panels on; 0 means all (results are the same)")
      ->check(CLI::Range(0, 1024));
  command.add_option(
      "--write-back", options.write_back,
      "Write the export again to this file, with the results of each panel as property set Panel_Results");
  command.add_flag("--labels", options.labels, "Write labels.pdf too: sheets with a label for each part of each panel");
}

void add_signing_options(CLI::App& command, BuildOptions& options) {
  const auto key =
      command.add_option("--sign-key", options.signing.key,
                         "PKCS#12 file with the signing key (default: a demonstration key, not for issue)");
  const auto descriptor = command.add_option("--password-fd", options.signing.password.file_descriptor,
                                             "File descriptor to read the key's password from");
  const auto variable = command.add_option("--password-env", options.signing.password.environment_variable,
                                           "Environment variable that holds the key's password");
  descriptor->needs(key)->excludes(variable);
  variable->needs(key);
}

void add_location_options(CLI::App& command, BuildOptions& options) {
  add_plugin_options(command, options.plugins);
  command.add_option("--schemas", options.input.schema_dir, "Folder of the XSD");
  command.add_option("--fonts", options.font_dir, "Folder of the DejaVu Sans Condensed fonts");
}

}  // namespace

void add_build_command(CLI::App& app, int& status) {
  auto options = std::make_shared<BuildOptions>();
  options->input.schema_dir = default_schema_dir();
  CLI::App* command =
      app.add_subcommand("build", "Run every check and write the signed dossier and the machine outputs");
  add_input_options(*command, *options);
  add_signing_options(*command, *options);
  add_location_options(*command, *options);
  command->callback([options, &status] { status = refusing_unreadable_input([&] { return run_build(*options); }); });
}

}  // namespace panel_dossier
