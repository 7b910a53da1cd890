// `check --ids`: an export held against a file of requirements.
#pragma once

#include <filesystem>

namespace panel_dossier {

struct IdsOptions {
  std::filesystem::path ids_file;     ///< empty when none is asked for
  std::filesystem::path report_file;  ///< CSV; empty when none is asked for
};

/// Prints what holds and what does not, and writes the report. Gives the exit status: 0 all hold, 1 some do not, 2 the
/// export or the file of requirements is refused. Throws std::runtime_error when a file cannot be read or written.
int check_against_ids(const IdsOptions& options, const std::filesystem::path& export_file,
                      const std::filesystem::path& schema_dir);

}  // namespace panel_dossier
