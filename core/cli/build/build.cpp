#include "core/cli/build/build.h"

#include <spdlog/spdlog.h>

#include <algorithm>
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <iostream>
#include <memory>
#include <optional>
#include <set>
#include <stdexcept>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

#include "core/cli/build/build_inputs.h"
#include "core/cli/build/build_log.h"
#include "core/cli/build/dry_run.h"
#include "core/cli/build/nights/build_lock.h"
#include "core/cli/build/nights/clock.h"
#include "core/cli/build/nights/earlier_builds.h"
#include "core/cli/build/nights/kept_builds.h"
#include "core/cli/build/nights/morning_summary.h"
#include "core/cli/build/nights/stop_signals.h"
#include "core/cli/build/outcome.h"
#include "core/cli/build/output/dossier_files.h"
#include "core/cli/build/output/handover_files.h"
#include "core/cli/build/output/kept_export.h"
#include "core/cli/build/output/output_folder.h"
#include "core/cli/build/output/signing_key.h"
#include "core/cli/build/project_plugins.h"
#include "core/cli/build/share.h"
#include "core/cli/build/store/stored_results.h"
#include "core/cli/build/store/unchanged.h"
#include "core/cli/terminal/console_progress.h"
#include "core/cli/terminal/exit_status.h"
#include "core/dossier/dossier.h"
#include "core/dossier/guidance/guidance.h"
#include "core/intake/document/file_bytes.h"
#include "core/intake/panels/panel_choice.h"
#include "core/intake/settings/settings_reader.h"
#include "core/pipeline/heap.h"
#include "core/pipeline/junit_output.h"
#include "core/pipeline/plugin_host.h"
#include "core/pipeline/run.h"
#include "core/seal/signer.h"
#include "core/trace/compare.h"
#include "core/trace/open_points.h"
#include "core/trace/record.h"
#include "core/trace/results_document.h"
#include "core/trace/write_back/write_back.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

Results run_all_checks(const Project& project, const Settings& settings, const PluginFolder& loaded,
                       const BuildOptions& options, Progress& progress, const std::optional<EarlierResults>& earlier) {
  Results results = run_checks(project, settings, loaded.plugins, options.threads, progress, earlier);
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

BuildFacts facts_of(const BuildOptions& options, const Inputs& inputs, const KeptExport& export_file,
                    const std::vector<HexDigest>& hashes, const std::string& time_utc, bool for_issue) {
  BuildFacts facts;
  facts.data_hashes = hashes;
  facts.program_version = PANEL_DOSSIER_VERSION;
  facts.time_utc = time_utc;
  facts.export_name = options.input.export_file.filename().string();
  facts.export_schema = inputs.intake.schema_version;
  facts.export_sha256 = export_file.sha256();
  facts.settings_bytes = inputs.settings_bytes;
  for (const SettingsFile& file : inputs.settings_files) facts.settings_files.emplace_back(file.location, file.bytes);
  facts.confirmed_values = inputs.confirmed_values;
  facts.table_confirmations = inputs.table_confirmations;
  if (inputs.settings_bytes) facts.settings = read_settings(*inputs.settings_bytes, "settings").settings.all();
  facts.issue = options.issue;
  facts.signed_for_issue = for_issue;
  facts.project_dir = fs::absolute(options.input.export_file).parent_path();
  return facts;
}

/// `FILE:LINE: warning: message; advice`.
std::string in_words(const InputProblem& problem) {
  const std::string place = problem.line == 0 ? "" : ":" + std::to_string(problem.line);
  return problem.file + place + ": warning: " + problem.message + (problem.advice.empty() ? "" : "; " + problem.advice);
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
                           "' lies in the output folder, which is replaced as a whole; name a file outside of it");
}

/// What is written beside the output must be somewhere that a build may write to. Throws std::runtime_error naming the
/// option.
void check_places(const BuildOptions& options) {
  const auto check = [](const char* option, const auto& step) {
    try {
      step();
    } catch (const std::runtime_error& error) {
      throw std::runtime_error(std::string(option) + ": " + error.what());
    }
  };
  if (!options.write_back.empty()) {
    check("--write-back", [&] {
      require_outside(options.write_back, options.out);
      require_earlier_results(options.write_back);
    });
  }
  if (!options.summary.empty()) check("--summary", [&] { require_outside(options.summary, options.out); });
}

/// What the build follows from but for its inputs.
BuildOrigins origins_of(const BuildOptions& options) {
  BuildOrigins origins;
  origins.export_file = options.input.export_file;
  origins.settings_file = options.input.settings_file;
  origins.program = options.plugins.folders();
  origins.program.insert(origins.program.end(),
                         {"/proc/self/exe", options.input.schema_dir, options.font_dir, options.guidance_dir});
  if (!options.signing.key.empty() && !options.signing.uses_token()) origins.program.push_back(options.signing.key);
  if (!options.previous.empty()) origins.program.push_back(options.previous / "results.json");
  origins.options = std::string(PANEL_DOSSIER_VERSION) + '\n' + options.time_utc +
                    (options.labels ? "\nlabels" + options.label_choice.form : "") +
                    (options.label_choice.insulation ? "\ninsulation" : "") + '\n' + options.signing.time_stamp_server +
                    '\n' + options.signing.key.string();
  origins.out = options.out;
  if (!options.summary.empty()) {
    const auto [text, html] = summary_files(options.summary);
    origins.made = {text, html};
  }
  return origins;
}

/// An issue is always made, and so is a file to write back to.
bool may_stand(const BuildOptions& options) {
  return !options.issue.is_issue() && options.write_back.empty();
}

void log_inputs(spdlog::logger& log, const BuildSummary& build) {
  for (const PluginSummary& plugin : build.plugins) {
    log.debug("plugin {} {} {}", plugin.id, plugin.version, plugin.sha256);
  }
  for (const HashedFile& file : build.settings_files) log.debug("project file {} {}", file.name, file.sha256);
  for (const HashedFile& file : build.evidence) log.debug("evidence {} {} {}", file.id, file.name, file.sha256);
}

/// What a full disk and a limit of the size of files leave of a message that does not say so; empty otherwise.
std::string disk_advice(const fs::path& folder) {
  constexpr std::uintmax_t kLittle_bytes = 8U << 20U;
  std::error_code error;
  const fs::space_info space = fs::space(folder, error);
  if (error || space.available > kLittle_bytes) return {};
  return "; the disk of '" + folder.string() + "' is full, " + std::to_string(space.available / 1024) +
         " KiB are left: make room and run again";
}

/// One run of the nightly job, from the lock to the last line on the console.
class BuildRun {
 public:
  BuildRun(const BuildOptions& options, StopSignals& signals, RunLog& log)
      : options_(options),
        signals_(signals),
        run_log_(log),
        log_(log.logger()),
        target_(normalised_target(options.out)),
        kept_(target_) {}

  /// Returns the exit status, whatever happens.
  int run() {
    try {
      std::vector<std::string> warnings;
      store_ = open_store(options_.store, target_, warnings);
      for (const std::string& warning : warnings) run_log_.of_run().warn("{}", warning);
      for (const fs::path& bundle : options_.bundles) {
        if (store_ == nullptr) throw std::runtime_error("the bundles need a store, and there is none");
        store_->take_from(bundle);
      }
      if (const auto unchanged = unchanged_since_last()) return stands(*unchanged);
      kept_.keep_issue();
      if (options_.issue.is_issue()) kept_.require_new_issue(options_.issue.id);
      read_.plugins = load_plugins(options_.plugins, options_.input.schema_dir);
    } catch (const std::runtime_error& error) {
      return failed(exit_status::kIncomplete, "a plugin or the environment failed", error.what());
    }
    try {
      read_build_inputs(options_, read_);
    } catch (const std::runtime_error& error) {
      return failed(exit_status::kInputRefused, "the input is refused", error.what());
    }
    if (read_.inputs.refused()) return refused();
    try {
      return build();
    } catch (const std::exception& error) {
      // Held: somebody may have stopped the run, which fails every write on its way out.
      const auto held = signals_.hold();
      return failed(exit_status::kIncomplete, "a plugin or the environment failed", error.what() + disk_advice_);
    }
  }

 private:
  const BuildOptions& options_;
  StopSignals& signals_;
  RunLog& run_log_;
  spdlog::logger& log_;
  fs::path target_;
  KeptBuilds kept_;
  BuildInputs read_;
  std::string disk_advice_;
  std::unique_ptr<ResultStore> store_;
  std::set<std::string> watched_;  ///< `watched_places` of the inputs
  std::chrono::system_clock::time_point begun_ = std::chrono::system_clock::now();

  std::optional<RememberedBuild> unchanged_since_last() const {
    if (store_ == nullptr || !may_stand(options_)) return std::nullopt;
    return unchanged_build(*store_, origins_of(options_), time_of_build());
  }

  std::string time_of_build() const { return options_.time_utc.empty() ? time_now_utc() : options_.time_utc; }

  int stands(const RememberedBuild& build) {
    run_log_.of_run().info("nothing that the build of {} follows from has changed: '{}' stands as it is",
                           build.time_utc, target_.string());
    tell(summary_of_unchanged(build));
    return build.status;
  }

  /// What cannot be remembered is built again.
  void remember(const RememberedBuild& build) {
    if (store_ == nullptr) return;
    try {
      if (may_stand(options_) && build.status != exit_status::kIncomplete) {
        remember_build(*store_, origins_of(options_), watched_, build, begun_);
      }
      store_->finish_build();
    } catch (const std::exception& error) {
      run_log_.of_run().warn("the next build cannot see whether anything has changed: {}", error.what());
    }
    for (const std::string& warning : store_->take_warnings()) run_log_.of_run().warn("{}", warning);
  }

  void log_store_use(const Project& project, const Results& results) {
    if (store_ == nullptr) return;
    run_log_.of_run().info("{}", store_use_in_words(results));
    if (!options_.store.explain_panel) return;
    for (const std::string& line : explanation(project, results, *options_.store.explain_panel)) {
      run_log_.of_run().info("{}", line);
    }
  }

  std::string what_stands() const {
    const fs::path dossier = target_ / "dossier.pdf";
    return fs::exists(dossier) ? dossier.string() + " of the last build, untouched"
                               : "none was there, none was written";
  }

  /// A summary that cannot be written fails no build.
  void tell(const MorningSummary& summary) {
    if (!options_.summary.empty()) {
      try {
        write_summary(summary, options_.summary);
      } catch (const std::exception& error) {
        log_.error("the summary is not written: {}", error.what());
      }
    }
    std::cout << five_lines(summary) << std::flush;
  }

  int failed(int status, const std::string& state, const std::string& reason) {
    log_.error("{}", reason);
    log_.error("exit status {}: the last good build, if any, is untouched", status);
    tell(summary_of_failure(state, reason, what_stands(), run_log_.file()));
    return status;
  }

  int refused() {
    print_diagnostics(read_.inputs.diagnostics);
    std::string first;
    for (const Diagnostic& diagnostic : read_.inputs.diagnostics) {
      log_.debug("{}", to_string(diagnostic));
      if (first.empty() && diagnostic.severity == Severity::error) first = to_string(diagnostic);
    }
    return failed(exit_status::kInputRefused, "the input is refused",
                  first + "; nothing was written" + (read_.inputs.diagnostics.size() > 1 ? "; more in the log" : ""));
  }

  int build() {
    const std::string time_utc = time_of_build();
    const std::unique_ptr<Signer> signer = make_signer(options_.signing, time_utc);
    OutputFolder folder(target_, output_names(read_.plugins));
    try {
      return build_into(folder, time_utc, *signer);
    } catch (const std::exception&) {
      disk_advice_ = disk_advice(folder.staging());  // before what was written is taken away again
      throw;
    }
  }

  int build_into(OutputFolder& folder, const std::string& time_utc, const Signer& chosen) {
    const Inputs& inputs = read_.inputs;
    run_log_.add_build_log(folder.staging() / "build.log", options_.time_utc.empty());
    log_.info("panel-dossier {} reads '{}' ({})", PANEL_DOSSIER_VERSION, options_.input.export_file.string(),
              inputs.intake.schema_version);
    if (const std::string warning = key_warning(options_.signing); !warning.empty()) log_.warn("{}", warning);
    for (const std::string& line : choice_in_words(inputs.intake.panel_choice)) log_.info("{}", line);
    for (const Diagnostic& diagnostic : inputs.diagnostics) log_.warn("{}", to_string(diagnostic));

    auto export_file = std::make_unique<const KeptExport>(read_.inputs.export_bytes, folder.staging());
    ConsoleProgress progress(options_.log.console != ConsoleDetail::quiet);
    const Project& project = *inputs.intake.project;
    std::optional<EarlierResults> earlier_results;
    if (store_ != nullptr) {
      earlier_results.emplace(EarlierResults{*store_, fs::weakly_canonical(target_).string(), digest_of_files(inputs)});
    }
    Results results = run_all_checks(project, inputs.settings, read_.plugins, options_, progress, earlier_results);
    log_store_use(project, results);
    for (const InputProblem& problem : results.problems) log_.warn("{}", in_words(problem));
    write_file(folder.staging() / "checks.xml", junit_xml(project, results));
    write_table_workbooks(project, results.outputs, time_utc, folder.staging());
    for (OutputTable& output : results.outputs) {
      write_file(folder.staging() / output.declaration.file, csv_of(output));
      output.rows = {};
    }
    ResultsDocument document =
        make_results_document(project, std::move(results),
                              facts_of(options_, inputs, *export_file, read_.hashes, time_utc, chosen.for_issue()));
    if (document.build.incomplete && document.build.issue.is_issue()) {
      document.build.warnings.push_back("issue " + document.build.issue.id + " is not made: the build is incomplete");
      document.build.issue = {};
    }
    const std::unique_ptr<Signer> substitute = demonstration_if_incomplete(document.build, chosen);
    const Signer& signer = substitute ? *substitute : chosen;
    log_inputs(log_, document.build);
    give_back_memory();
    const std::vector<OpenPoint> points = open_points(document);
    const EarlierBuilds earlier = compare_with_earlier(document, points, kept_, target_, options_.previous, log_);
    give_back_memory();
    write_results(document, folder.staging());
    write_file(folder.staging() / kSigningCertificateFile, signer.certificate_pem());
    const Guidance guidance = make_guidance(project, inputs.settings, document, read_.guidance);
    write_guidance_files(guidance, project, document, points, folder.staging());
    if (document.build.issue.is_issue()) {
      write_file(folder.staging() / kIssueFile, KeptBuilds::issue_file(document.build));
      log_.info("issue {}, {}", document.build.issue.id, document.build.issue.status);
    }
    const DossierContent content{
        project,  inputs.settings, document, earlier.comparisons, earlier.history.entries(), inputs.property_titles,
        &guidance};
    LaidOutDossier laid_out = lay_out_dossier(content, options_, signer, folder.staging(), progress);
    write_handover(content, std::move(laid_out.panel_pages), read_.plugins, folder.staging());
    write_workshop_file(content, options_, folder.staging() / "workshop.pdf");
    if (options_.labels) write_label_files(options_, document, folder.staging(), log_);
    log_outcome(log_, document, points, earlier.comparisons);
    const bool aside = goes_aside(folder, document.build);
    RememberedBuild build{document.build.time_utc, status_of(document),
                          summary_of(document, points, earlier.comparisons, folder.target() / "dossier.pdf")};
    const bool writes_back = !options_.write_back.empty() && !aside;
    if (!writes_back) drop_what_is_told(document);
    finish_signed_dossier(document, laid_out.volumes, inputs, *export_file, signer, folder.staging(), progress);
    if (writes_back) write_back_results(options_, inputs, *export_file, document, read_.plugins, log_);
    export_file.reset();
    return publish(folder, std::move(build), earlier.history, aside);
  }

  fs::path incomplete_place() const { return beside(target_, ".incomplete"); }

  /// Whether the build may not take the place of a whole one; the folder is then led elsewhere.
  bool goes_aside(OutputFolder& folder, const BuildSummary& build) {
    if (!build.incomplete || options_.replace_with_incomplete) return false;
    const fs::path incomplete = incomplete_place();
    folder.redirect(incomplete);
    log_.error("the build is incomplete and goes to '{}'; '{}' {}", incomplete.string(), target_.string(),
               fs::exists(target_) ? "stays as it was" : "is not made");
    if (!options_.write_back.empty()) log_.warn("nothing is written back: the build is incomplete");
    return true;
  }

  /// Finishing takes memory of its own, and asks for none of what the pages were made of.
  void drop_what_is_told(ResultsDocument& document) {
    if (store_ != nullptr) watched_ = watched_places(origins_of(options_), read_.inputs);
    document.panels = {};
    document.project_findings = {};
    read_.inputs.intake.project.reset();
    give_back_memory();
  }

  int publish(OutputFolder& folder, RememberedBuild build, const History& history, bool aside) {
    log_.flush();
    {
      const auto held = signals_.hold();
      folder.publish();
    }
    if (!aside) build.status = keep(history, build.status);
    tell(build.summary);
    remember(build);
    return build.status;
  }

  /// What comes after the build was published. What fails here the next run makes good.
  int keep(const History& history, int status) {
    const fs::path incomplete = incomplete_place();
    try {
      kept_.write_history(history);
      kept_.keep_issue();
      // A whole build is newer than what lies there.
      if (fs::exists(incomplete)) {
        require_replaceable(incomplete, output_names(read_.plugins));
        fs::remove_all(incomplete);
      }
      return status;
    } catch (const std::exception& error) {
      log_.error("the build is published, but what belongs beside it is not: {}", error.what());
      return exit_status::kIncomplete;
    }
  }
};

int say_what_would_be_done(const BuildOptions& options) {
  BuildInputs read;
  read.plugins = load_plugins(options.plugins, options.input.schema_dir);
  if (!print_build_inputs(options, read, "written")) return exit_status::kInputRefused;
  try {
    make_signer(options.signing, options.time_utc.empty() ? time_now_utc() : options.time_utc);
    if (const std::string warning = key_warning(options.signing); !warning.empty()) std::cerr << warning << '\n';
    std::cout << dry_run_text(options, read.inputs, read.plugins);
  } catch (const std::runtime_error& error) {
    std::cerr << "panel-dossier: error: " << error.what() << "\nnothing was written\n";
    return exit_status::kIncomplete;
  }
  return read.plugins.refused.empty() ? exit_status::kClean : exit_status::kIncomplete;
}

int run_locked(const BuildOptions& options) {
  StopSignals signals;
  const fs::path target = normalised_target(options.out);
  const BuildLock lock(target);
  RunLog log(target, options.log);
  signals.on_stop(
      [&log, file = lock.file(), staging = beside(target, ".building", true)] {
        log.logger().error("the run was stopped");
        log.logger().flush();
        std::error_code ignored;
        // Other threads may still be writing there.
        for (int i = 0; i < 3; ++i) fs::remove_all(staging, ignored);
        fs::remove(file, ignored);
      },
      "what stands in '" + target.string() + "' is whole: the last build, or this one if it was done");
  return BuildRun(options, signals, log).run();
}

}  // namespace

std::vector<std::string> output_names(const PluginFolder& plugins) {
  std::vector<std::string> names;
  for (const LoadedPlugin& plugin : plugins.plugins) {
    for (const OutputDeclaration& output : plugin.outputs) names.push_back(output.file);
  }
  return names;
}

int run_build(const BuildOptions& options) {
  try {
    check_places(options);
  } catch (const std::runtime_error& error) {
    std::cerr << "panel-dossier: error: " << error.what() << "\nnothing was written\n";
    return exit_status::kUsage;
  }
  if (options.dry_run) return say_what_would_be_done(options);
  try {
    if (options.share) return run_share_of_build(options);
    return run_locked(options);
  } catch (const std::exception& error) {
    std::cerr << "panel-dossier: error: " << error.what() << "\nthe last good build, if any, is untouched\n";
    return exit_status::kIncomplete;
  }
}

}  // namespace panel_dossier
