// What a test asks of findings, and how it prints their numbers.
#pragma once

#include <array>
#include <charconv>
#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/api/finding/finding.h"

namespace panel_dossier::testing {

/// The finding with this id; throws std::out_of_range when there is none.
inline const Finding& finding_of(const std::vector<Finding>& findings, std::string_view check) {
  for (const Finding& finding : findings) {
    if (finding.check == check) return finding;
  }
  throw std::out_of_range("no finding '" + std::string(check) + "'");
}

/// The value of a finding that must be a number.
inline double number_of(const Finding& finding) {
  return std::get<double>(finding.value);
}

/// The number of the first step with this symbol; throws std::out_of_range when there is none.
inline double step_of(const Finding& finding, std::string_view symbol) {
  for (const Step& step : finding.steps) {
    if (step.symbol == symbol) return std::get<double>(step.value);
  }
  throw std::out_of_range("no step " + std::string(symbol));
}

/// The text of a number in what a test says: twelve significant digits, without the zeros behind them; the same in
/// every locale.
inline std::string number_text(double value) {
  constexpr int kDigits = 12;
  std::array<char, 64> buffer{};
  const auto [end, error] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::general, kDigits);
  return error == std::errc{} ? std::string(buffer.data(), end) : std::string("?");
}

}  // namespace panel_dossier::testing
