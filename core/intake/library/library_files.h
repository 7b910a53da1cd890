// The files of the libraries that the settings name: which tables they hold, and where their declarations lie.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/settings.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/settings/settings_table.h"
#include "core/intake/tables/input_table.h"

namespace panel_dossier {

enum class LibraryTableKind { materials, boards, fixings, windows, lifting, panels, evidence, people };

/// The name of its file or sheet.
std::string_view to_string(LibraryTableKind kind);

struct LibraryTable {
  LibraryTableKind kind = LibraryTableKind::materials;
  std::size_t in_library = 0;  ///< index into LibraryFiles::folders: a later one goes before an earlier one
  InputTable table;
};

struct LibraryFolder {
  std::string name;                       ///< as the settings have it
  std::filesystem::path folder;           ///< absolute; documents lie in it, and none is followed outside of it
  std::vector<std::string> declarations;  ///< files of its folder `declarations`, relative to `folder`, by name
};

struct LibraryFiles {
  std::vector<LibraryFolder> folders;  ///< one for each entry of the setting, in its order
  std::vector<LibraryTable> tables;    ///< by library, then by file
  std::vector<SettingsFile> files;     ///< every file that a table was read from, as it was read
};

/// Reads the tables of the setting `library`: a list of folders, workbooks and CSV files, each relative to the folder
/// of the settings. Of a folder are read the files named like a table (`materials.csv`, `boards.xlsx`) and the sheets
/// named like one of every other workbook; what else lies there is left alone, but for other CSV files and sheets,
/// which are warned of. Everything wrong becomes an error: of the setting under `settings_name`, of a table with row
/// and column.
LibraryFiles read_library_files(const Settings& settings, const std::filesystem::path& settings_dir,
                                const std::string& settings_name, Diagnostics& diagnostics);

}  // namespace panel_dossier
