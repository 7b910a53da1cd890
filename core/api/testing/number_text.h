// Numbers in the texts that tests print.
#pragma once

#include <array>
#include <charconv>
#include <string>

namespace panel_dossier::testing {

/// Twelve significant digits, without the zeros behind them; the same in every locale.
inline std::string number_text(double value) {
  constexpr int kDigits = 12;
  std::array<char, 64> buffer{};
  const auto [end, error] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::general, kDigits);
  return error == std::errc{} ? std::string(buffer.data(), end) : std::string("?");
}

}  // namespace panel_dossier::testing
