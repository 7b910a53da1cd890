// Labels for the parts of the panels, one a piece.
#pragma once

#include <cstddef>
#include <filesystem>

#include "core/dossier/dossier.h"

namespace panel_dossier {

/// Writes A4 sheets of 3 × 8 labels of 70 mm × 37 mm without margins, a customary size: the mark of panel and part,
/// kind, which of how many equal pieces, material, size, shape, batch, and a QR code. They come from the
/// cutting lists, panels in the order of the results; a panel without that list has none. Returns the
/// number of labels; with none, no file is written. Same results, same bytes. Throws std::runtime_error as
/// `write_dossier` does.
std::size_t write_labels(const ResultsDocument& results, const DossierFonts& fonts, const std::filesystem::path& file);

/// What the code of a part says: `panel-dossier:GLOBALID:PARTMARK`.
std::string part_code(const std::string& global_id, const std::string& part_mark);

}  // namespace panel_dossier
