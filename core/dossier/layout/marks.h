// Small shapes with a meaning: the mark beside a verdict's word, and QR codes as vector squares.
#pragma once

#include <cstddef>
#include <string>

#include "core/api/finding/finding.h"
#include "core/dossier/layout/pdf_document.h"

namespace panel_dossier {

/// Draws the mark into a square of `size` points with its lower left corner at `at`: a tick (pass), a cross (fail),
/// a triangle (evidence needed), a ring (not assessed) or a bar (information).
void draw_verdict_mark(PdfDocument& pdf, std::size_t page, Vec2 at, double size, Verdict verdict);

/// From the least to the most urgent, for sorting: information, pass, not assessed, evidence needed, fail.
int urgency(Verdict verdict);

/// Draws the code of `content` with its quiet zone into the square of `size` points whose lower left corner is `at`.
/// Throws std::runtime_error when the content is too long for a QR code.
void draw_qr_code(PdfDocument& pdf, std::size_t page, Vec2 at, double size, const std::string& content);

}  // namespace panel_dossier
