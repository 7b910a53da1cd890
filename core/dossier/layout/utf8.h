// UTF-8 in small steps.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace panel_dossier {

inline constexpr char32_t kReplacementCharacter = 0xFFFD;

/// Reads the code point at `at` and moves `at` behind it. A broken sequence gives U+FFFD and moves one byte.
/// Requires `at` < text.size().
char32_t next_code_point(std::string_view text, std::size_t& at);

void append_utf8(std::string& text, char32_t code_point);

}  // namespace panel_dossier
