// The folder of records: which of its files and sheets hold which table.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "core/intake/document/diagnostics.h"
#include "core/intake/records/record_tables.h"
#include "core/intake/settings/settings_table.h"
#include "core/intake/tables/input_table.h"

namespace panel_dossier {

/// The folder that is looked into where the settings name none.
inline constexpr const char* kRecordsFolder = "records";

struct FoundTable {
  const RecordTable* table = nullptr;
  InputTable input;
};

struct FoundRecords {
  std::vector<FoundTable> tables;   ///< in the order of the descriptions
  std::vector<SettingsFile> files;  ///< every file that was read, by name
};

/// Reads each table that `folder`, relative to `project_dir`, holds as NAME.csv, as NAME.xlsx or as a sheet of
/// records.xlsx; names in either case. Reports as errors a folder that lies outside of the project, a file that a link
/// leads out to, a table that stands twice and what is wrong with the form of one; as warnings files and sheets of
/// other names. A folder that is not there holds nothing; where `is_named`, the settings name it, and it is an error.
FoundRecords find_records(const std::filesystem::path& project_dir, const std::string& folder, bool is_named,
                          const std::vector<RecordTable>& tables, Diagnostics& diagnostics);

}  // namespace panel_dossier
