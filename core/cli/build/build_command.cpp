#include <CLI/CLI.hpp>
#include <array>
#include <chrono>
#include <cstdio>
#include <memory>
#include <string>

#include "core/cli/build/build.h"
#include "core/cli/build/nights/kept_builds.h"
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
                     "Output folder of the last build, for the change log (default: what stands in --out)");
  command.add_option("--build-time", options.time_utc, "Fix the build time, for example 2026-11-25T02:00:00Z")
      ->check(CLI::Validator(time_fault, "TIME"));
  command.add_option("--threads", options.threads, "Threads to check panels on; 0 means all (results are the same)")
      ->check(CLI::Range(0, 1024));
  command.add_option(
      "--write-back", options.write_back,
      "Write the export again to this file, with the results of each panel as property set Panel_Results");
  const auto labels = command.add_flag("--labels", options.labels,
                                       "Write labels.pdf too, sheets with a label for each part of each panel, and "
                                       "panel-labels.pdf, with a large one for each panel");
  std::vector<std::string> forms;
  for (const LabelForm& form : label_forms()) forms.push_back(form.name);
  command
      .add_option("--label-sheet", options.label_choice.form,
                  "Labels across and down a sheet of A4 of labels.pdf (default: 3x8, of 70 mm by 37 mm)")
      ->check(CLI::IsMember(forms))
      ->needs(labels);
  command
      .add_flag("--label-insulation", options.label_choice.insulation, "Label slabs of insulation in labels.pdf too")
      ->needs(labels);
}

std::string issue_fault(const std::string& id) {
  return is_issue_id(id)
             ? std::string{}
             : "the name of an issue is letters, digits, '.', '_' and '-', at most 32 of them, as P03: " + id;
}

void add_night_options(CLI::App& command, BuildOptions& options) {
  const auto issue = command
                         .add_option("--issue", options.issue.id,
                                     "Make this build an issue of that name, for example P03: it is kept beside --out "
                                     "for good, and later builds are compared with it")
                         ->check(CLI::Validator(issue_fault, "ID"));
  command.add_option("--status", options.issue.status, "Status of the issue, for example 'for construction'")
      ->needs(issue);
  command.add_option("--summary", options.summary,
                     "Write what a person reads in the morning to FILE.txt and FILE.html, also when the build fails");
  command.add_flag("--dry-run", options.dry_run,
                   "Read everything, say what would be computed and written; write nothing");
  const auto quiet = command.add_flag_callback(
      "--quiet", [&options] { options.log.console = ConsoleDetail::quiet; },
      "Print warnings, errors and the last five lines alone");
  command
      .add_flag_callback(
          "--verbose", [&options] { options.log.console = ConsoleDetail::verbose; },
          "Print every input with its hash too")
      ->excludes(quiet);
  command.add_option("--keep-logs", options.log.kept,
                     "Logs of the last runs to keep in the folder NAME.logs beside --out; 0: none (default: 30)");
  command
      .add_flag(
          "--replace-with-incomplete", options.replace_with_incomplete,
          "Let an incomplete build take the place of a whole one, instead of the folder NAME.incomplete beside it")
      ->excludes(issue);
}

void add_location_options(CLI::App& command, BuildOptions& options) {
  add_plugin_options(command, options.plugins);
  command.add_option("--schemas", options.input.schema_dir, "Folder of the XSD");
  command.add_option("--fonts", options.font_dir, "Folder of the fonts Lato and DejaVu Sans Condensed");
}

/// `2/4` as share 2 of 4. Throws CLI::ValidationError when it is none.
Share parsed_share(const std::string& text) {
  Share share;
  std::array<char, 2> rest{};
  if (std::sscanf(text.c_str(), "%5zu/%5zu%1s", &share.number, &share.of, rest.data()) != 2 || share.number < 1 ||
      share.number > share.of) {
    throw CLI::ValidationError("--share", "is K/N, for example 2/4 for the second of four; not '" + text + "'");
  }
  return share;
}

void add_share_option(CLI::App& command, BuildOptions& options) {
  command
      .add_option_function<std::string>(
          "--share", [&options](const std::string& text) { options.share = parsed_share(text); },
          "Compute share K of N of the panels into the file of --store and write nothing else; 'assemble' makes the "
          "dossier of all shares")
      ->type_name("K/N")
      ->needs(command.get_option("--store"))
      ->group("Results of earlier builds");
}

void add_common_options(CLI::App& command, const std::shared_ptr<BuildOptions>& options, int& status) {
  options->input.schema_dir = default_schema_dir();
  add_input_options(command, *options);
  add_night_options(command, *options);
  add_key_options(command, options->signing);
  add_store_options(command, options->store);
  add_location_options(command, *options);
  command.callback([options, &status] { status = refusing_unreadable_input([&] { return run_build(*options); }); });
}

}  // namespace

void add_build_command(CLI::App& app, int& status) {
  auto options = std::make_shared<BuildOptions>();
  CLI::App* command =
      app.add_subcommand("build", "Run every check and write the signed dossier and the machine outputs");
  add_common_options(*command, options, status);
  add_share_option(*command, *options);
  command->footer(
      "Beside --out NAME: NAME.store (results that need not be computed again), NAME.issues (each issue), "
      "NAME.history.jsonl (a line a build), NAME.logs (each run), "
      "NAME.incomplete (the last build of which part failed).\n"
      "Exit status: 0 every check passes; 1 some verdicts fail; 4 nothing fails but something is open; 2 input "
      "refused; "
      "3 a plugin or the environment failed; 64 wrong usage; 130, 143, 129: stopped by SIGINT, SIGTERM, SIGHUP. After "
      "2, 3 and a stop the last good build is as it was.");
}

void add_assemble_command(CLI::App& app, int& status) {
  auto options = std::make_shared<BuildOptions>();
  CLI::App* command = app.add_subcommand(
      "assemble", "Build from the shares of a project that 'build --share' computed: the same bytes as one run");
  add_common_options(*command, options, status);
  command->add_option("BUNDLES", options->bundles, "Files that 'build --share' wrote")
      ->required()
      ->check(CLI::ExistingFile);
  command->get_option("--no-store")->excludes(command->get_option("BUNDLES"));
  command->footer("What no bundle holds, because something has changed since or a share is missing, is computed here.");
}

}  // namespace panel_dossier
