// The nightly job: inputs -> findings -> outputs, all or nothing.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/cli/build/build_log.h"
#include "core/cli/build/output/signing_key.h"
#include "core/cli/build/store/stored_results.h"
#include "core/cli/inputs.h"
#include "core/cli/terminal/locations.h"
#include "core/dossier/parts/panel/labels.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

struct BuildOptions {
  InputOptions input;
  std::filesystem::path out;
  PluginOptions plugins;
  std::filesystem::path font_dir = kDefaultFontDir;
  std::filesystem::path guidance_dir = default_guidance_dir();
  std::filesystem::path previous;  ///< output folder of the last build; empty: what stands in `out`
  SigningOptions signing;
  std::string time_utc;  ///< empty: the machine's clock
  int threads = 0;       ///< 0: as many as the machine has
  bool labels = false;   ///< write labels.pdf and panel-labels.pdf too
  LabelChoice label_choice = {};
  std::filesystem::path write_back;  ///< write the export with its results to this file too; empty: do not
  IssueMark issue;                   ///< of a build that leaves the office
  LogOptions log;
  StoreOptions store;
  std::optional<Share> share;                  ///< compute this share of the panels into the store, and no more
  std::vector<std::filesystem::path> bundles;  ///< stores of shares to take results from
  std::filesystem::path summary;               ///< the morning summary, as text and HTML; empty: neither
  bool dry_run = false;                        ///< say what would be done, and write nothing
  bool replace_with_incomplete = false;        ///< an incomplete build takes the place of a whole one
};

/// Names of the tables that the plugins write.
std::vector<std::string> output_names(const PluginFolder& plugins);

/// Runs the whole job. Returns the exit status; throws std::runtime_error for what stops a build before it has begun.
int run_build(const BuildOptions& options);

}  // namespace panel_dossier
