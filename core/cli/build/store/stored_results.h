// The store of results as the commands use it: where it lies, and what it spared.
#pragma once

#include <CLI/App.hpp>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/intake/inputs.h"
#include "core/pipeline/run.h"
#include "core/pipeline/store/result_store.h"

namespace panel_dossier {

struct StoreOptions {
  bool none = false;
  std::filesystem::path file;                ///< empty: beside the output
  std::optional<std::string> explain_panel;  ///< mark of the panel to explain, empty for all; none: explain nothing
};

/// Adds `--store`, `--no-store` and `--explain`.
void add_store_options(CLI::App& command, StoreOptions& options);

/// `OUT.store`, or the file that the options name.
std::filesystem::path store_file(const StoreOptions& options, const std::filesystem::path& out);

/// Null without a store. Throws std::runtime_error when the named file cannot be used; one beside the output that
/// cannot is told in `warnings` and gone without.
std::unique_ptr<ResultStore> open_store(const StoreOptions& options, const std::filesystem::path& out,
                                        std::vector<std::string>& warnings);

/// Of all files that were read beside the export.
Digest digest_of_files(const Inputs& inputs);

/// `300 results of panels: 290 from the store, 10 computed; of the project: 5 from the store, 0 computed`.
std::string store_use_in_words(const Results& results);

/// Why each result was computed: one line a plugin and cause with the panels and one a plugin for the project, or one a
/// plugin for one panel. Throws
/// std::runtime_error when no panel has the mark.
std::vector<std::string> explanation(const Project& project, const Results& results, const std::string& mark);

}  // namespace panel_dossier
