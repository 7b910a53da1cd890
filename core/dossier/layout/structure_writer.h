// Structure and named destinations as objects of the PDF. Beside the source of pdf_document the only one that knows
// libharu.
#pragma once

#include <hpdf.h>

#include <map>
#include <string>
#include <vector>

#include "core/dossier/layout/structure.h"

namespace panel_dossier {

/// Writes the tree as it waits, the catalog's MarkInfo and the numbers by which the parent tree (ISO 32000-2:2020,
/// 14.7.5.4) will know pages and annotations: pages first, then annotations. They are those whose numbers the tree
/// holds. Throws std::runtime_error as PdfDocument does.
void write_structure(HPDF_Doc document, const StructureTree& tree, const std::vector<HPDF_Page>& pages,
                     const std::vector<HPDF_Annotation>& annotations);

/// Writes the catalog's tree of named destinations (12.3.2.4), by which other programs lead to a place of the file.
void write_destinations(HPDF_Doc document, const std::map<std::string, HPDF_Destination>& destinations);

}  // namespace panel_dossier
