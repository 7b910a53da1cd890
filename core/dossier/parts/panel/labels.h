// Labels for the panels, one each, and for their parts, one a piece.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

#include "core/dossier/dossier.h"

namespace panel_dossier {

/// A sheet of A4 with labels side by side, a customary size.
struct LabelForm {
  std::string name;  ///< `3x8`: labels across and down
  std::size_t across = 0;
  std::size_t down = 0;
  double width_mm = 0.0;
  double height_mm = 0.0;
};

/// 3x8, which is the usual one, 3x7, 2x8, 2x7 and 2x4.
const std::vector<LabelForm>& label_forms();

struct LabelChoice {
  std::string form = "3x8";  ///< name of one of the forms
  bool insulation = false;   ///< slabs of insulation too, which are cut and laid and never looked for
};

/// Writes labels of the parts: the mark of panel and part, kind, which of how many equal pieces, material, size, shape,
/// batch, and a QR code. They come from the cutting lists, panels in the order of the results; a panel without that
/// list has none. Returns the number of labels; with none, no file is written. Same results, same bytes. Throws
/// std::runtime_error as `write_dossier` does, std::out_of_range for a form that there is none of.
std::size_t write_labels(const ResultsDocument& results, const DossierFonts& fonts, const std::filesystem::path& file,
                         const LabelChoice& choice = {});

/// Writes one label a panel, eight on a sheet: its mark, legible from some metres, type, place, mass, load on the hook,
/// fire resistance, batch, and the QR code of its page. Otherwise as `write_labels`.
std::size_t write_panel_labels(const ResultsDocument& results, const DossierFonts& fonts,
                               const std::filesystem::path& file);

/// What the code of a panel says, the same in every build: `panel-dossier:GLOBALID`.
std::string panel_code(const std::string& global_id);

/// What the code of a part says: `panel-dossier:GLOBALID:PARTMARK`.
std::string part_code(const std::string& global_id, const std::string& part_mark);

}  // namespace panel_dossier
