// Numbers inside sentences, the same in every locale.
#pragma once

#include <array>
#include <charconv>
#include <string>

namespace panel_dossier {

/// `value` with `decimals` digits after the point, for example `0.263`; for reasons and notes, never for results.
inline std::string fixed_text(double value, int decimals) {
  std::array<char, 400> buffer{};
  const auto [end, error] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, decimals);
  return error == std::errc{} ? std::string(buffer.data(), end) : std::string("?");
}

}  // namespace panel_dossier
