// Values as a reader sees them in plain text.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/finding.h"

namespace panel_dossier {

/// The number with that many decimals and its unit, the text as it is, or `none`.
std::string value_text(const Value& value, const std::string& unit, int decimals);

/// Whether it is a length in m, other than 0, that is read in mm: shorter than 0.1 m.
bool is_short_length(double value, std::string_view unit);

/// As `value_text`, short lengths in mm: `6.0 mm`.
std::string readable_text(const Value& value, const std::string& unit, int decimals);

/// The number in its shortest exact form and its unit, the text as it is, or `none`.
std::string exact_value_text(const Value& value, const std::string& unit);

/// `text, text and 4 more`: at most `shown` of them by name.
std::string list_some(const std::vector<std::string>& names, std::size_t shown);

}  // namespace panel_dossier
