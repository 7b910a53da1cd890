// What the export states of a panel and the records tell of it, on the panel's second page.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/panel.h"
#include "core/dossier/layout/table.h"
#include "core/dossier/parts/book.h"
#include "core/dossier/parts/panel/neighbours.h"

namespace panel_dossier {

/// A table as dense as those of the second page are.
TableSpec compact(std::vector<ColumnSpec> columns);

/// What is stated of the panel and does not stand on its first page, its neighbours, and its hash in the tree.
void write_records(Book& book, const Panel& panel, const PanelNeighbours& neighbours, const std::string& hash);

/// Every row of the records, the oldest first: what counts is the newest, and what was before it is kept.
void write_history(Book& book, const Panel& panel);

}  // namespace panel_dossier
