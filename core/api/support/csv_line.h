// One line of a comma-separated file.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier {

/// The fields of one line (RFC 4180 without line breaks inside quotes), without white space around them; none when a
/// quote is not closed.
std::optional<std::vector<std::string>> csv_fields(std::string_view line);

}  // namespace panel_dossier
