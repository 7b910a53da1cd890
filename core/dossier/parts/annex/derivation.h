// Derivations as the annex prints them: inputs with their sources, steps, notes, tables, charts and drawings.
#pragma once

#include <vector>

#include "core/dossier/parts/book.h"

namespace panel_dossier {

/// A table of a finding as it is printed: units in the heads, columns of numbers aligned.
TableSpec table_spec(const Table& table);

/// Sets the derivations in two columns, then the tables and figures too wide for a column, then the numbered list of
/// their sources.
void write_derivations(Book& book, const std::vector<const AnnexEntry*>& entries);

}  // namespace panel_dossier
