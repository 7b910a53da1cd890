#include "core/api/support/line_table.h"

#include <algorithm>
#include <limits>

namespace panel_dossier {

namespace {

std::uint32_t clamped(std::size_t value) {
  return static_cast<std::uint32_t>(std::min<std::size_t>(value, std::numeric_limits<std::uint32_t>::max()));
}

}  // namespace

LineTable::LineTable(std::string_view text) {
  constexpr std::size_t kUsualLine_bytes = 32;
  line_starts_.reserve(text.size() / kUsualLine_bytes + 1);
  for (std::size_t at = text.find('\n'); at != std::string_view::npos; at = text.find('\n', at + 1)) {
    line_starts_.push_back(at + 1);
  }
}

LineTable::Position LineTable::at(std::size_t offset) const {
  const auto after = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
  const auto line = static_cast<std::size_t>(after - line_starts_.begin());
  return {clamped(line), clamped(offset - line_starts_[line - 1] + 1)};
}

}  // namespace panel_dossier
