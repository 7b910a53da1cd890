// A file of separated values -> the cells of a table.
#pragma once

#include <string_view>

#include "core/intake/tables/table_grid.h"

namespace panel_dossier {

/// Reads UTF-8 text whose fields are separated by commas, semicolons or tabs, whichever its head row uses. Reports what
/// breaks the form. Gives the separator; a comma where there is no head row.
char read_csv_grid(std::string_view text, TableGrid& grid, Reporter& report);

}  // namespace panel_dossier
