// JSON as people keep it: with comments, and with a comma behind the last entry.
#pragma once

#include <string>
#include <string_view>

namespace panel_dossier {

/// The same text with blanks in place of comments (`// …` to the end of the line, `/* … */`) and of a comma that
/// stands before a closing bracket, so that every other character keeps its line and column. Texts in quotes stay as
/// they are. A comment that is never closed reaches to the end.
std::string plain_json(std::string_view text);

}  // namespace panel_dossier
