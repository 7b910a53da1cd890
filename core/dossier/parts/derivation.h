// The derivation of findings: inputs with their sources, steps, notes, tables, charts and drawings.
#pragma once

#include <string>
#include <vector>

#include "core/dossier/layout/book.h"

namespace panel_dossier {

/// Anchor of the derivation of finding `index` within `scope` (a panel's GlobalId or another unique name).
std::string derivation_anchor(const std::string& scope, std::size_t index);

struct NumberedFinding {
  std::size_t index = 0;  ///< within the scope, from 0; printed from 1
  const RecordedFinding* finding = nullptr;
};

/// Sets the derivations in two columns, then the tables and figures too wide for a column, then the numbered list of
/// sources.
void write_derivations(Book& book, const std::vector<NumberedFinding>& findings, const std::string& scope);

}  // namespace panel_dossier
