#include "core/intake/document/export_form.h"

#include <algorithm>
#include <cctype>
#include <cstddef>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kUtf8Mark = "\xEF\xBB\xBF";

bool begins_with_step_mark(std::string_view text) {
  constexpr std::string_view kMark = "ISO-10303-21";
  return text.size() >= kMark.size() && std::equal(kMark.begin(), kMark.end(), text.begin(), [](char mark, char c) {
           return mark == static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
         });
}

/// A comment may stand before the first token.
std::string_view without_comments(std::string_view text) {
  while (text.starts_with("/*")) {
    const std::size_t close = text.find("*/");
    if (close == std::string_view::npos) return {};
    text = trimmed(text.substr(close + 2));
  }
  return text;
}

}  // namespace

ExportForm form_of_export(std::string_view bytes) {
  constexpr std::size_t kLooked_bytes = 4096;
  if (trimmed(bytes).empty()) return ExportForm::empty;
  if (bytes.starts_with("PK\x03\x04") || bytes.starts_with("PK\x05\x06")) return ExportForm::zip;
  const bool is_utf16 = bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF") ||
                        bytes.starts_with(std::string_view("<\0", 2)) || bytes.starts_with(std::string_view("\0<", 2));
  if (is_utf16) return ExportForm::xml;
  if (bytes.starts_with(kUtf8Mark)) bytes.remove_prefix(kUtf8Mark.size());
  const std::string_view text = trimmed(bytes.substr(0, kLooked_bytes));
  if (text.starts_with("<")) return ExportForm::xml;
  return begins_with_step_mark(without_comments(text)) ? ExportForm::step : ExportForm::none;
}

}  // namespace panel_dossier
