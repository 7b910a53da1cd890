// How long a text of the inputs may be, and how one that is too long is shown.
#pragma once

#include <cstddef>
#include <string>

namespace panel_dossier {

/// Of a name or setting. A label of IFC has at most 255 characters, and what people write stays below a printed page;
/// what is longer would fill every page, reason and table that names it.
inline constexpr std::size_t kLongestText_bytes = 4000;
/// Of a property, among which an export may keep notes: what a cell of a workbook may hold (table_limits.h).
inline constexpr std::size_t kLongestPropertyText_bytes = 32'767;

/// The text, or its first 60 bytes and an ellipsis; no character is cut in two.
std::string shortened_text(const std::string& text);

}  // namespace panel_dossier
