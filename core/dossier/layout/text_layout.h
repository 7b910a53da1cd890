// UTF-8 in small steps, and breaking text into lines.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier {

inline constexpr char32_t kReplacementCharacter = 0xFFFD;

/// Reads the code point at `at` and moves `at` behind it. A broken sequence gives U+FFFD and moves one byte.
/// Requires `at` < text.size().
char32_t next_code_point(std::string_view text, std::size_t& at);

void append_utf8(std::string& text, char32_t code_point);

/// Width of a piece of text in points.
using Measure = std::function<double(std::string_view)>;

/// Breaks at spaces and line feeds; a word wider than a line breaks behind `/ - _ . , : ;`, and where that does not
/// help between any two characters. No character but spaces at breaks is lost. Empty text gives one empty line.
std::vector<std::string> wrap(std::string_view text, double width, const Measure& measure);

/// The text, or as much of it as fits with `…` in the place of what is left out.
std::string shorten(std::string_view text, double width, const Measure& measure);

/// Width of the widest piece that `wrap` breaks only between characters.
double widest_word(std::string_view text, const Measure& measure);

}  // namespace panel_dossier
