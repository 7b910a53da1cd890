// QR codes as vector squares.
#pragma once

#include <string>

#include "core/dossier/layout/pdf_document.h"

namespace panel_dossier {

/// Draws the code of `content` with its quiet zone into the square of `size` points whose lower left corner is `at`.
/// Throws std::runtime_error when the content is too long for a QR code.
void draw_qr_code(PdfDocument& pdf, std::size_t page, Vec2 at, double size, const std::string& content);

/// What the code of a panel says: `panel-dossier:GLOBALID:HASH`.
std::string panel_code(const std::string& global_id, const std::string& hash);

}  // namespace panel_dossier
