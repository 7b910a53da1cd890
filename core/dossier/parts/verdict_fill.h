// How panels are filled in a picture of the building by their most urgent verdict: by colour, hatch and sign, so that
// none of them is needed alone.
#pragma once

#include <cstddef>

#include "core/api/finding/finding.h"
#include "core/dossier/layout/flow.h"
#include "core/dossier/layout/pdf_document.h"

namespace panel_dossier {

/// Whether the verdict asks somebody to do something: failed, evidence needed, not assessed.
bool is_open(Verdict verdict);

/// The outline, in points of the page, with ground and hatch of the verdict.
void draw_filled(PdfDocument& pdf, std::size_t page, const Polygon& outline, Verdict verdict);

/// One line that tells what the fills and signs stand for.
void write_verdict_legend(Flow& flow);

}  // namespace panel_dossier
