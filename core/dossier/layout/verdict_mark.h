// The small shape that stands beside a verdict's word.
#pragma once

#include <cstddef>

#include "core/api/finding/finding.h"
#include "core/dossier/layout/pdf_document.h"

namespace panel_dossier {

/// Draws the mark into a square of `size` points with its lower left corner at `at`: a tick (pass), a cross (fail),
/// a triangle (evidence needed), a ring (not assessed) or a bar (information).
void draw_verdict_mark(PdfDocument& pdf, std::size_t page, Vec2 at, double size, Verdict verdict);

/// From the least to the most urgent, for sorting: information, pass, not assessed, evidence needed, fail.
int urgency(Verdict verdict);

}  // namespace panel_dossier
