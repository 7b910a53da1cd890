// From which number to which a value may go.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace panel_dossier {

/// Both bounds belong to it.
struct ValueRange {
  double least = 0.0;
  double most = 0.0;

  bool holds(double value) const { return value >= least && value <= most; }
  bool holds(const ValueRange& other) const { return holds(other.least) && holds(other.most); }
};

/// `0.015..400`, both numbers finite and in this order; none for any other text.
std::optional<ValueRange> parse_range(std::string_view text);

/// `0.015 to 400 W/(m·K)`.
std::string to_string(const ValueRange& range, std::string_view unit);

}  // namespace panel_dossier
