// Empty tables of library and records with exactly the materials, windows, fixings, types and marks of the project.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/intake/records/record_tables.h"
#include "core/pipeline/gaps.h"

namespace panel_dossier {

struct TableForm {
  std::string file;  ///< relative: `library/materials.csv`
  std::string text;  ///< CSV that the program reads as it is: a row that nobody filled in says nothing
};

/// A table for each kind of thing that lacks a property that the library can give: a row a thing, a column for each
/// property that one of them lacks, above it a comment for each column with what it means and how many lack it.
std::vector<TableForm> library_forms(const Project& project, const std::vector<Gap>& gaps,
                                     const std::vector<RecordTable>& records);

/// A table for each kind of record, a row a panel; with `needed_only`, only those that give a property that a gap
/// names.
std::vector<TableForm> record_forms(const Project& project, const std::vector<Gap>& gaps,
                                    const std::vector<RecordTable>& tables, bool needed_only);

}  // namespace panel_dossier
