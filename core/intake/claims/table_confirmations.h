// Rows of the plugins' data tables that the practice has held against its own copy of the standard.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

struct DataTableRow {
  std::string plugin;  ///< id
  std::string table;   ///< file name
  std::string row;     ///< key
  std::string source;  ///< as the row states it
  std::string hash;    ///< SHA-256 of all its cells with their columns, in hexadecimal digits
};

/// All rows of all data tables in the data folders of the plugins (id and folder), by plugin, file name and the order
/// of the file. A file that is no data table is passed over.
std::vector<DataTableRow> table_rows(const std::vector<std::pair<std::string, std::filesystem::path>>& plugin_folders);

/// Whether the source says that the value was recalled without the text at hand.
bool is_from_memory(std::string_view source);

/// Somebody has compared a row with an edition of its source.
struct TableConfirmation {
  std::string table;
  std::string row;
  std::string hash;     ///< of the row that was compared
  std::string edition;  ///< of the source
  std::string name;
  std::string role;
  std::string day;  ///< YYYY-MM-DD
};

/// Reads `confirmations.csv`: a head `table,row,hash,edition,name,role,day`, one row a confirmation, comments and empty
/// lines passed over. A warning for a table that no plugin of this run has. An error with its line for an empty field,
/// a row that its table does not have, a hash that is not the row's (it has changed since), and a day that is none or
/// after `today` (YYYY-MM-DD).
std::vector<TableConfirmation> read_table_confirmations(std::string_view bytes, const std::string& display_name,
                                                        const std::vector<DataTableRow>& rows, const std::string& today,
                                                        Diagnostics& diagnostics);

/// The form to work through: the head of `confirmations.csv`, each row confirmed as it is, and each other row as a
/// comment with its source and an empty place for edition, name, role and day.
std::string confirmation_form(const std::vector<DataTableRow>& rows,
                              const std::vector<TableConfirmation>& confirmations);

}  // namespace panel_dossier
