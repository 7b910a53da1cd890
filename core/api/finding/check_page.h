// The page of a check, made from its declaration.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"

namespace panel_dossier {

/// Markdown: heading of level 3 with the id, what is found, clause, kind, what is read, what is not seen. Ends with a
/// newline.
std::string check_page(const CheckDeclaration& check);

/// The pages of all checks, one behind the other, with an empty line between them: what stands in a plugin's README.
std::string check_pages(const std::vector<CheckDeclaration>& checks);

/// What of one source the check reads, as `a, b (optional), c`; empty when it reads nothing of it.
std::string inputs_in_words(const CheckDeclaration& check, CheckInput::Source source);

}  // namespace panel_dossier
