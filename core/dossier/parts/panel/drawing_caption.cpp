#include "core/dossier/parts/panel/drawing_caption.h"

#include "core/dossier/layout/text_layout.h"

namespace panel_dossier {

std::vector<std::string> wrapped_lines(const PdfDocument& pdf, std::string_view text, const TextStyle& style,
                                       double width) {
  return wrap(text, width, [&](std::string_view piece) { return pdf.text_width(piece, style.face, style.size); });
}

double draw_caption(Book& book, const std::string& text, const Rect& area) {
  const Tagged tagged(book.pdf, Tag::paragraph);
  double y = area.top;
  for (const std::string& line : wrapped_lines(book.pdf, text, kDrawingCaption, area.width())) {
    y -= kDrawingCaption.leading;
    book.pdf.text(book.flow.page(), {area.left, y}, line, kDrawingCaption);
  }
  return area.top - y;
}

}  // namespace panel_dossier
