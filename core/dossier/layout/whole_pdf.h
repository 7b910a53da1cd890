// Whether a PDF file was written to its end.
#pragma once

#include <filesystem>

namespace panel_dossier {

/// Throws std::runtime_error when the file does not end as a PDF file does: the libraries that write them do not notice
/// that their last bytes found no room.
void require_whole_pdf(const std::filesystem::path& file);

}  // namespace panel_dossier
