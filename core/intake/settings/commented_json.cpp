#include "core/intake/settings/commented_json.h"

#include <algorithm>
#include <cstddef>

namespace panel_dossier {

namespace {

/// Behind the text in quotes that begins at `start`; the end where it is not closed.
std::size_t behind_quoted(std::string_view text, std::size_t start) {
  for (std::size_t at = start + 1; at < text.size(); ++at) {
    if (text[at] == '\\') {
      ++at;
    } else if (text[at] == '"') {
      return at + 1;
    }
  }
  return text.size();
}

/// Behind the comment that begins at `start`; `start` where none does.
std::size_t behind_comment(std::string_view text, std::size_t start) {
  const std::string_view opening = text.substr(start, 2);
  if (opening == "//") return std::min(text.find('\n', start), text.size());
  if (opening != "/*") return start;
  const std::size_t end = text.find("*/", start + 2);
  return end == std::string_view::npos ? text.size() : end + 2;
}

void blank_out(std::string& text, std::size_t first, std::size_t last) {
  for (std::size_t at = first; at < last; ++at) {
    if (text[at] != '\n' && text[at] != '\r') text[at] = ' ';
  }
}

}  // namespace

std::string plain_json(std::string_view text) {
  std::string plain(text);
  std::size_t last_comma = std::string::npos;  // while nothing but white space and comments stands behind it
  bool behind_value = false;                   // a comma elsewhere is a slip, to be reported where it stands
  for (std::size_t at = 0; at < text.size();) {
    if (const std::size_t end = behind_comment(text, at); end != at) {
      blank_out(plain, at, end);
      at = end;
      continue;
    }
    const char c = text[at];
    if (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
      ++at;
      continue;
    }
    if ((c == '}' || c == ']') && last_comma != std::string::npos) plain[last_comma] = ' ';
    last_comma = c == ',' && behind_value ? at : std::string::npos;
    behind_value = c != ',' && c != ':' && c != '{' && c != '[';
    at = c == '"' ? behind_quoted(text, at) : at + 1;
  }
  return plain;
}

}  // namespace panel_dossier
