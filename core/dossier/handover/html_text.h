// Texts in HTML, SVG and the data of a page, where a name out of an input must stay a text.
#pragma once

#include <string>
#include <string_view>

namespace panel_dossier {

/// For the text of an element or a quoted attribute: markup is escaped, and what would hide text or turn it round is
/// shown as `visible_text` does.
std::string html_escaped(std::string_view text);

/// JSON that may stand inside a script element: `<`, `>` and `&`, which only its strings hold, as escapes of JSON, so
/// that neither the end of the element nor a comment can begin in it.
std::string json_in_html(std::string_view json);

/// The bytes in base64 (RFC 4648, 4).
std::string base64(std::string_view bytes);

}  // namespace panel_dossier
