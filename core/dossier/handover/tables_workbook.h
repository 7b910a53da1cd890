// The tables that plugins write, as sheets of one workbook.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "core/pipeline/outputs.h"

namespace panel_dossier {

/// Whom a workbook is for: to the client go neither tables nor columns that are marked as for the workshop.
enum class TableReaders { client, workshop };

/// The head of a column: its name in words, with the unit in brackets in place of its last word that says the unit:
/// `mass [kg]` for `mass_kg`. A unit that is no unit but says where to look stands nowhere.
std::string column_head(const OutputColumn& column);

/// Writes a first sheet that says what each column means, then a sheet a table. Same tables, same bytes. Throws
/// std::runtime_error naming the file when it cannot be written; a table of more rows than a sheet holds goes on in the
/// next one.
void write_tables(const std::vector<OutputTable>& tables, TableReaders readers, const std::string& project,
                  std::string_view time_utc, const std::filesystem::path& file);

}  // namespace panel_dossier
