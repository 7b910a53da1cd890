#include "core/cli/build/share.h"

#include <filesystem>
#include <iostream>
#include <string>

#include "core/api/support/text_encoding.h"
#include "core/cli/build/build_inputs.h"
#include "core/cli/build/store/stored_results.h"
#include "core/cli/terminal/console_progress.h"
#include "core/cli/terminal/exit_status.h"
#include "core/pipeline/run.h"

namespace panel_dossier {

int run_share_of_build(const BuildOptions& options) {
  BuildInputs read;
  read.plugins = load_plugins(options.plugins, options.input.schema_dir);
  if (!print_build_inputs(options, read, "computed")) return exit_status::kInputRefused;
  ResultStore store(options.store.file);
  ConsoleProgress progress(options.log.console != ConsoleDetail::quiet);
  Results results = run_share(
      *read.inputs.intake.project, read.inputs.settings, read.plugins.plugins, *options.share, options.threads,
      progress, {store, std::filesystem::weakly_canonical(options.store.file).string(), digest_of_files(read.inputs)});
  store.finish_build();
  results.failures.insert(results.failures.end(), read.plugins.refused.begin(), read.plugins.refused.end());
  for (const std::string& warning : store.take_warnings()) results.failures.push_back(warning);
  for (const std::string& failure : results.failures) std::cerr << "error: " << visible_text(failure) << '\n';
  std::cout << "share " << options.share->number << " of " << options.share->of << " in '"
            << options.store.file.string() << "': " << store_use_in_words(results) << '\n';
  return results.failures.empty() ? exit_status::kClean : exit_status::kIncomplete;
}

}  // namespace panel_dossier
