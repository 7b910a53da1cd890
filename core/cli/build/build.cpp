#include "core/cli/build/build.h"

#include <spdlog/spdlog.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <ctime>
#include <iostream>
#include <memory>
#include <optional>
#include <set>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/cli/build/attachments.h"
#include "core/cli/build/build_log.h"
#include "core/cli/build/outcome.h"
#include "core/cli/build/output_folder.h"
#include "core/cli/build/signing_key.h"
#include "core/cli/terminal/console_progress.h"
#include "core/cli/terminal/exit_status.h"
#include "core/dossier/dossier.h"
#include "core/dossier/parts/labels.h"
#include "core/intake/document/file_bytes.h"
#include "core/intake/panels/panel_choice.h"
#include "core/pipeline/junit_output.h"
#include "core/pipeline/plugin_host.h"
#include "core/pipeline/run.h"
#include "core/seal/finish.h"
#include "core/seal/signature_field.h"
#include "core/seal/signer.h"
#include "core/trace/compare.h"
#include "core/trace/open_points.h"
#include "core/trace/record.h"
#include "core/trace/results_document.h"
#include "core/trace/write_back/standard_results.h"
#include "core/trace/write_back/write_back.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

/// Now in UTC as `2026-11-25T02:00:00Z`.
std::string time_now_utc() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  gmtime_r(&now, &parts);
  std::array<char, 32> text{};
  std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &parts);
  return text.data();
}

/// The results of the previous issue; none when there is none.
std::optional<ResultsDocument> previous_issue(const BuildOptions& options) {
  const fs::path folder = options.previous.empty() ? options.out : options.previous;
  const fs::path file = folder / "results.json";
  if (options.previous.empty() && !fs::exists(file)) return std::nullopt;
  return results_from_json(read_file(file));
}

/// As `previous_issue`, but a folder that nobody named may hold what this program cannot read: that is told, not fatal.
std::optional<ResultsDocument> previous_issue_if_readable(const BuildOptions& options, spdlog::logger& log) {
  try {
    return previous_issue(options);
  } catch (const std::runtime_error& error) {
    if (!options.previous.empty()) throw;
    log.warn("the build in '{}' cannot be compared with; the change log is left empty: {}", options.out.string(),
             error.what());
    return std::nullopt;
  }
}

/// One message for each discipline of the setting `plugins.expected` that was not loaded: without it the findings that
/// it alone makes are absent, and nothing else would tell.
std::vector<std::string> absent_disciplines(const Settings& settings, const std::vector<LoadedPlugin>& loaded,
                                            const std::string& folders) {
  std::vector<std::string> messages;
  for (std::size_t i = 0;; ++i) {
    const auto expected = settings.text("plugins.expected." + std::to_string(i));
    if (!expected) return messages;
    const bool is_loaded = std::any_of(loaded.begin(), loaded.end(),
                                       [&](const LoadedPlugin& plugin) { return plugin.info.id == expected->value; });
    if (is_loaded) continue;
    messages.push_back("the discipline '" + expected->value + "' is expected by the setting 'plugins.expected' but " +
                       folders + " gave no plugin of that id, so none of its checks was made; put the plugin " +
                       "back or take the discipline out of the setting");
  }
}

Results run_all_checks(const Project& project, const Settings& settings, const PluginFolder& loaded,
                       const BuildOptions& options, Progress& progress) {
  Results results = run_checks(project, settings, loaded.plugins, options.threads, progress);
  results.failures.insert(results.failures.begin(), loaded.refused.begin(), loaded.refused.end());
  for (std::string& absent : absent_disciplines(settings, loaded.plugins, options.plugins.folders_in_words())) {
    results.failures.push_back(std::move(absent));
  }
  if (loaded.plugins.empty()) {
    results.failures.push_back("no plugin was loaded from " + options.plugins.folders_in_words() +
                               ", so nothing was checked");
  }
  return results;
}

BuildFacts facts_of(const BuildOptions& options, const Inputs& inputs, const std::vector<HexDigest>& hashes,
                    const std::string& time_utc, bool for_issue) {
  BuildFacts facts;
  facts.data_hashes = hashes;
  facts.program_version = PANEL_DOSSIER_VERSION;
  facts.time_utc = time_utc;
  facts.export_name = options.input.export_file.filename().string();
  facts.export_schema = inputs.intake.schema_version;
  facts.export_bytes = inputs.export_bytes;
  facts.settings_bytes = inputs.settings_bytes;
  for (const SettingsFile& file : inputs.settings_files) facts.settings_files.emplace_back(file.location, file.bytes);
  facts.confirmed_values = inputs.confirmed_values;
  facts.table_confirmations = inputs.table_confirmations;
  facts.signed_for_issue = for_issue;
  facts.project_dir = fs::absolute(options.input.export_file).parent_path();
  return facts;
}

void write_signed_dossier(const DossierContent& content, const BuildOptions& options, const Inputs& inputs,
                          const std::string& results, const Signer& signer, const fs::path& file, Progress& progress) {
  const fs::path pages = file.parent_path() / "pages.pdf";
  std::size_t reported = 0;
  write_dossier(content, fonts_in(options.font_dir), pages, [&](std::size_t done, std::size_t total) {
    if (reported == 0) progress.begin("laying out the dossier", total);
    progress.advance(done - reported);
    reported = done;
  });
  progress.begin("finishing and signing", 0);
  finish_dossier(pages, content.results, attachments_of(inputs, content.results.build.export_name, results),
                 signer.signature_bytes(), file);
  fs::remove(pages);
  sign_dossier(file, signer, content.results.build.time_utc);
}

void write_part_labels(const BuildOptions& options, const ResultsDocument& document, const fs::path& file,
                       spdlog::logger& log) {
  const fs::path pages = file.parent_path() / "label-pages.pdf";
  if (write_labels(document, fonts_in(options.font_dir), pages) == 0) {
    log.warn("labels.pdf is not written: no panel has a cutting list");
    return;
  }
  finish_labels(pages, file);
  fs::remove(pages);
}

/// The last before the folder is published: what cannot be written back stops the build.
void write_back_results(const BuildOptions& options, const Inputs& inputs, const ResultsDocument& document,
                        const PluginFolder& plugins, spdlog::logger& log) {
  require_earlier_results(options.write_back);
  std::vector<WrittenBack> rows;
  for (const LoadedPlugin& plugin : plugins.plugins) {
    rows.insert(rows.end(), plugin.written_back.begin(), plugin.written_back.end());
  }
  std::vector<PanelResults> results = panel_results(document);
  if (!rows.empty()) {
    const StandardSets standard(options.input.schema_dir);
    std::set<std::string> panels;
    for (const PanelResults& panel : results) panels.insert(panel.global_id);
    const StandingSets standing =
        read_standing_sets(inputs.export_bytes, options.input.schema_dir, panels, types_of(rows, standard));
    const StandardOutcome outcome =
        add_standard_results(results, document, *inputs.intake.project, rows, standard, standing);
    log.info(
        "written back into properties of the standard: {}; not written: {} that the export states, {} whose set "
        "other objects share",
        outcome.written, outcome.stated, outcome.shared);
  }
  write_in_place(options.write_back, export_with_results(inputs.export_bytes, results),
                 {options.input.export_file, options.input.settings_file});
}

/// `FILE:LINE: warning: message; advice`.
std::string in_words(const InputProblem& problem) {
  const std::string place = problem.line == 0 ? "" : ":" + std::to_string(problem.line);
  return problem.file + place + ": warning: " + problem.message + (problem.advice.empty() ? "" : "; " + problem.advice);
}

std::vector<std::string> output_names(const PluginFolder& plugins) {
  std::vector<std::string> names;
  for (const LoadedPlugin& plugin : plugins.plugins) {
    for (const OutputDeclaration& output : plugin.outputs) names.push_back(output.file);
  }
  return names;
}

/// The folder is replaced as a whole once the build is done, so nothing else may be written in it.
void require_outside(const fs::path& file, const fs::path& folder) {
  const fs::path whole_file = fs::weakly_canonical(fs::absolute(file));
  const fs::path named_folder = (fs::absolute(folder) / "").lexically_normal().parent_path();
  const fs::path whole_folder = fs::weakly_canonical(named_folder);
  const auto [rest, unused] =
      std::mismatch(whole_folder.begin(), whole_folder.end(), whole_file.begin(), whole_file.end());
  if (rest != whole_folder.end()) return;
  throw std::runtime_error("'" + file.string() +
                           "' lies in the output folder, which is replaced as a whole; write back " +
                           "to a file outside of it");
}

/// What `--write-back` names must be a place that a build may write to.
void check_write_back(const BuildOptions& options) {
  if (options.write_back.empty()) return;
  require_outside(options.write_back, options.out);
  require_earlier_results(options.write_back);
}

/// Everything after the inputs were accepted.
int build_accepted(const BuildOptions& options, const Inputs& inputs, const std::vector<HexDigest>& hashes,
                   const PluginFolder& plugins) {
  const std::string time_utc = options.time_utc.empty() ? time_now_utc() : options.time_utc;
  const std::unique_ptr<Signer> signer = make_signer(options.signing, time_utc);
  OutputFolder folder(options.out, output_names(plugins));
  const auto log = open_build_log(folder.staging() / "build.log", options.time_utc.empty());
  log->info("panel-dossier {} reads '{}' ({})", PANEL_DOSSIER_VERSION, options.input.export_file.string(),
            inputs.intake.schema_version);
  for (const std::string& line : choice_in_words(inputs.intake.panel_choice)) log->info("{}", line);
  for (const Diagnostic& diagnostic : inputs.diagnostics) log->warn("{}", to_string(diagnostic));

  ConsoleProgress progress;
  const Project& project = *inputs.intake.project;
  Results results = run_all_checks(project, inputs.settings, plugins, options, progress);
  for (const InputProblem& problem : results.problems) log->warn("{}", in_words(problem));
  write_file(folder.staging() / "checks.xml", junit_xml(project, results));
  for (const OutputTable& output : results.outputs) {
    write_file(folder.staging() / output.declaration.file, csv_of(output));
  }
  const ResultsDocument document = make_results_document(
      project, std::move(results), facts_of(options, inputs, hashes, time_utc, signer->for_issue()));
  const std::string json = to_json(document);
  write_file(folder.staging() / "results.json", json);
  const std::vector<OpenPoint> points = open_points(document);
  write_file(folder.staging() / "open-points.csv", open_points_csv(points));

  std::optional<std::vector<Change>> changes;
  if (const auto previous = previous_issue_if_readable(options, *log)) changes = compare(*previous, document);
  write_signed_dossier({project, inputs.settings, document, changes}, options, inputs, json, *signer,
                       folder.staging() / "dossier.pdf", progress);
  if (options.labels) write_part_labels(options, document, folder.staging() / "labels.pdf", *log);
  log_outcome(*log, document, points, changes);
  if (!options.write_back.empty()) write_back_results(options, inputs, document, plugins, *log);
  log->flush();
  folder.publish();
  std::cout << (folder.target() / "dossier.pdf").string() << '\n';
  return status_of(document);
}

}  // namespace

int run_build(const BuildOptions& options) {
  try {
    check_write_back(options);
  } catch (const std::runtime_error& error) {
    std::cerr << "panel-dossier: error: --write-back: " << error.what() << "\nnothing was written\n";
    return exit_status::kUsage;
  }
  PluginFolder plugins;
  try {
    plugins = load_plugins(options.plugins, options.input.schema_dir);
  } catch (const std::runtime_error& error) {
    std::cerr << "panel-dossier: error: " << error.what() << "\nnothing was written\n";
    return exit_status::kIncomplete;
  }
  InputOptions input = options.input;
  input.plugin_folders = data_folders(plugins.plugins);
  input.today = options.time_utc.substr(0, options.time_utc.find('T'));
  std::vector<HexDigest> hashes;
  input.as_exported = [&hashes](const Project& project) { hashes = data_hashes(project); };
  const Inputs inputs = read_inputs(input);
  if (inputs.refused()) {
    print_diagnostics(inputs.diagnostics);
    std::cerr << "panel-dossier: error: the input is refused; nothing was written\n";
    return exit_status::kInputRefused;
  }
  try {
    return build_accepted(options, inputs, hashes, plugins);
  } catch (const std::exception& error) {
    std::cerr << "panel-dossier: error: " << error.what() << "\nthe last good build, if any, is untouched\n";
    return exit_status::kIncomplete;
  }
}

}  // namespace panel_dossier
