// The records of workshop and site -> panels, deliveries, and the rows that name no panel.
#pragma once

#include <filesystem>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/graph/property_list.h"
#include "core/intake/records/record_files.h"

namespace panel_dossier {

/// Puts every row to its panel, to the project, or among its stray records, which is warned of. Reports as an error a
/// row whose keys do not name one panel.
void place_records(Project& project, const std::vector<FoundTable>& tables, Diagnostics& diagnostics);

struct RecordsOptions {
  std::filesystem::path project_dir;
  std::filesystem::path schema_dir;
  const std::vector<PropertyRow>& properties;
};

/// All of it: finds the tables beside the export, or in the folder of the setting `intake.records_folder`, places their
/// rows, gives panels, parts and building what the newest of them say, and registers the batches of export and
/// records. Gives the files that were read. Where anything is an error nothing is given to the panels. Throws
/// std::runtime_error as `read_record_tables`.
std::vector<SettingsFile> read_records(Project& project, const Settings& settings, const RecordsOptions& options,
                                       Diagnostics& diagnostics);

}  // namespace panel_dossier
