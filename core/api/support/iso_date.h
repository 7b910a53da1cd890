// Calendar dates as text, so that they compare in order.
#pragma once

#include <optional>
#include <string_view>

namespace panel_dossier {

/// True for `YYYY-MM-DD` (ISO 8601-1:2019, 5.2.2.1) where the month has that day in that year of the Gregorian
/// calendar: 2028-02-29 is a date, 2026-02-29 and 2026-06-31 are none. Two dates of this form compare as text in the
/// order of time.
bool is_iso_date(std::string_view text);

/// Days from `from` to `until`, negative where `until` is earlier; none where either is no date.
std::optional<int> days_between(std::string_view from, std::string_view until);

}  // namespace panel_dossier
