// Drawings of the neutral vocabulary as SVG: shapes and texts alone, in classes to which the page gives the looks.
#pragma once

#include <string>

#include "core/api/finding/drawing.h"

namespace panel_dossier {

/// How large a drawing's texts and marks are beside it.
struct SvgSize {
  double units_per_metre = 100.0;
  double text = 9.0;  ///< height of the letters in units
};

/// One `svg` element without a name or a size of its own: a view box, and groups of the classes `o-STYLE` (outlines),
/// `l-STYLE` (lines), `h-HATCH` and `t-NUMBER` (fills), `dim` (dimension lines) and `tx` (texts). Every text is
/// escaped. Coordinates are rounded to a tenth of a unit, so that drawings which look alike are the same text. An empty
/// drawing gives an empty text.
std::string svg_of(const Drawing& drawing, const SvgSize& size);

}  // namespace panel_dossier
