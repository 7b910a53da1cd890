// Whether anything that a build follows from has changed since the last one. If not, what stands is what would be made.
#pragma once

#include <chrono>
#include <filesystem>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/cli/build/nights/morning_summary.h"
#include "core/intake/inputs.h"
#include "core/pipeline/store/result_store.h"

namespace panel_dossier {

/// What a build follows from beside what its inputs name.
struct BuildOrigins {
  std::filesystem::path export_file;
  std::filesystem::path settings_file;         ///< empty: beside the export
  std::vector<std::filesystem::path> program;  ///< files and folders: program, plugins, schemas, fonts
  std::string options;                         ///< what changes the outputs, as one text
  std::filesystem::path out;
  std::vector<std::filesystem::path> made;  ///< files that the build writes outside of `out`
};

/// The last build as it was remembered.
struct RememberedBuild {
  std::string time_utc;
  int status = 0;
  MorningSummary summary;
};

/// The last build of this output, when everything that it followed from is as it was, its outputs are untouched, and it
/// is not of a later time than `time_utc`: no day that has passed since can change it, for a day only decides what is
/// refused because it lies in the future. None when in doubt.
std::optional<RememberedBuild> unchanged_build(ResultStore& store, const BuildOrigins& origins,
                                               const std::string& time_utc);

/// What to say in the morning when nothing has changed: what that build said, but for what was new then.
MorningSummary summary_of_unchanged(const RememberedBuild& build);

/// The folders and files in which something that the build reads may come, go or change: those of export, settings and
/// libraries that `inputs` name, whatever they hold.
std::set<std::string> watched_places(const BuildOrigins& origins, const Inputs& inputs);

/// Keeps what the build that stands in `origins.out` followed from: all files of the `watched` places, without those
/// beside the output that a build makes itself. Forgets the last build instead when one of them has changed since
/// `begun`, for what was read then may be older. Throws std::runtime_error when one cannot be read.
void remember_build(ResultStore& store, const BuildOrigins& origins, const std::set<std::string>& watched,
                    const RememberedBuild& build, std::chrono::system_clock::time_point begun);

}  // namespace panel_dossier
