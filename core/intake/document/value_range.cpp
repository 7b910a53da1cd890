#include "core/intake/document/value_range.h"

#include "core/api/support/words.h"

namespace panel_dossier {

std::optional<ValueRange> parse_range(std::string_view text) {
  constexpr std::string_view kDots = "..";
  const std::size_t dots = text.find(kDots);
  if (dots == std::string_view::npos) return std::nullopt;
  const auto least = parse_decimal(text.substr(0, dots));
  const auto most = parse_decimal(text.substr(dots + kDots.size()));
  if (!least || !most || *least > *most) return std::nullopt;
  return ValueRange{*least, *most};
}

std::string to_string(const ValueRange& range, std::string_view unit) {
  return shortest_text(range.least) + " to " + with_unit(range.most, unit);
}

}  // namespace panel_dossier
