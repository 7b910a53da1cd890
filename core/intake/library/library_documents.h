// Documents and declarations of a library that the project rests on, added to its evidence.
#pragma once

#include <vector>

#include "core/api/model/project.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/evidence/evidence_register.h"
#include "core/intake/library/library_files.h"

namespace panel_dossier {

/// Adds to Project::evidence each document that some property of the project names and the export does not hold: from
/// the registers of the libraries, a later one before an earlier one, and of a material's declaration from the files
/// that lie in their folders `declarations`, by identification, else by product. A material that names no declaration
/// but its product (Panel_EnvironmentalDeclaration.Product) gets the one of that product. Two files of one
/// identification or product are warned of and neither is taken. Warns of a document that does not prove anything.
void add_library_documents(Project& project, const std::vector<EvidenceRegister*>& registers,
                           const std::vector<LibraryFolder>& folders, Diagnostics& diagnostics);

}  // namespace panel_dossier
