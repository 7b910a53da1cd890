// What a PDF shows: whether its pages hold anything, and the words on them that can be read without a person's eye.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace panel_dossier {

struct PdfText {
  bool shows_something = false;  ///< a page has text, a picture or lines on it
  /// UTF-8, in the order of drawing, with a blank wherever the text moves on; hyphens of any kind are `-`. A word that
  /// is set letter by letter has blanks inside.
  std::string text;
  bool is_whole = true;  ///< false where fonts without a map to Unicode, or the limits below, leave text unread
};

/// None where the bytes are no PDF with pages, or one that needs a password. Text is read of the first 400 pages and of
/// at most 16 MiB of drawing; ToUnicode maps and encodings are those of ISO 32000-1:2008 9.10.
std::optional<PdfText> read_pdf_text(std::string_view bytes);

}  // namespace panel_dossier
