// companion.html: one file, without a network, in which a person finds a panel and sees what the dossier says of it.
#pragma once

#include <cstddef>
#include <filesystem>

#include "core/dossier/handover/handover.h"

namespace panel_dossier {

/// Bytes of pictures beyond which the rest is left out: a page that a telephone still opens. The page says so, and
/// names the page of the dossier that has the drawing.
inline constexpr std::size_t kMostPictures_bytes = std::size_t{12} << 20U;

/// Same content, same bytes. Nothing in the page comes from elsewhere, and its own rules (Content-Security-Policy)
/// forbid it to load or run anything but the script that is part of this program. Throws std::runtime_error naming the
/// file when it cannot be written.
void write_companion(const HandoverContent& content, const std::filesystem::path& file,
                     std::size_t most_picture_bytes = kMostPictures_bytes);

}  // namespace panel_dossier
