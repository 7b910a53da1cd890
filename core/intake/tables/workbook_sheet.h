// The cells of one sheet of a workbook.
#pragma once

#include <string>
#include <vector>

#include "core/intake/graph/element.h"
#include "core/intake/tables/number_format.h"
#include "core/intake/tables/table_grid.h"

namespace panel_dossier {

/// What the sheets of a workbook share.
struct WorkbookContent {
  DateSystem dates = DateSystem::from_1900;
  std::vector<NumberFormat> formats;  ///< by the style index of a cell
  std::vector<std::string> texts;     ///< by the index that a cell names
};

/// `t` and the `t` of runs of a text with formats; what only helps pronunciation is left out.
std::string rich_text(const Element& item);

/// Adds the rows of a worksheet and reports cells that cannot be read at their place.
void read_sheet(const Element& worksheet, const WorkbookContent& content, TableGrid& grid, Reporter& report);

}  // namespace panel_dossier
