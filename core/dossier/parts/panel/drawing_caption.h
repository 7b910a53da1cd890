// What is written at the drawings of a panel: captions above them and names beside.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/dossier/parts/book.h"

namespace panel_dossier {

inline constexpr TextStyle kDrawingCaption{Face::regular, 8.0, 9.6, kMidGrey};

/// Height that a caption of two lines and a gap take up, in points.
inline constexpr double kCaptionHeight = 24.0;

/// The lines of a text that is as wide as that, in points.
std::vector<std::string> wrapped_lines(const PdfDocument& pdf, std::string_view text, const TextStyle& style,
                                       double width);

/// Writes the caption from the top of the area downwards. Returns the height that it took up, in points.
double draw_caption(Book& book, const std::string& text, const Rect& area);

}  // namespace panel_dossier
