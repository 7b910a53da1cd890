// Calendar dates as text, so that they compare in order.
#pragma once

#include <cctype>
#include <cstddef>
#include <string_view>

namespace panel_dossier {

/// True for `YYYY-MM-DD` (ISO 8601-1:2019, 5.2.2.1) with a month of 01–12 and a day of 01–31. Two dates of this form
/// compare as text in the order of time.
inline bool is_iso_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (i != 4 && i != 7 && std::isdigit(static_cast<unsigned char>(text[i])) == 0) return false;
  }
  const std::string_view month = text.substr(5, 2);
  const std::string_view day = text.substr(8, 2);
  return month >= "01" && month <= "12" && day >= "01" && day <= "31";
}

}  // namespace panel_dossier
