// The forms of one project: what is missing in it, as files that are filled in and read back.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/cli/inputs.h"
#include "core/cli/planned_files.h"
#include "core/intake/records/record_tables.h"
#include "core/pipeline/gaps.h"

namespace panel_dossier {

/// What a project misses, found by running every check on it.
struct ProjectGaps {
  std::vector<PropertyRow> properties;  ///< every property that is read; the gaps point into it
  std::vector<RecordTable> records;
  std::vector<Gap> gaps;
  std::vector<DisciplineState> disciplines;
};

/// Runs the checks of all plugins. Precondition: the inputs are not refused.
ProjectGaps find_gaps(const Inputs& inputs, const std::vector<LoadedPlugin>& plugins, const InputOptions& options);

/// Settings, library and records with what the project misses, as files below `folder`; with `whole`, also what it
/// does not miss: every setting and every table of records.
std::vector<PlannedFile> project_forms(const Project& project, const ProjectGaps& gaps, const InputOptions& options,
                                       const std::vector<LoadedPlugin>& plugins, const std::filesystem::path& folder,
                                       bool whole);

/// Writes the files that are not there already, for nothing is written over, and prints which were written and which
/// kept. Throws std::runtime_error naming what cannot be written; then none is.
void write_forms(std::vector<PlannedFile> files);

}  // namespace panel_dossier
