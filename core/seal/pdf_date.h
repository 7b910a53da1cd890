// Dates between ISO 8601, PDF and the clock.
#pragma once

#include <ctime>
#include <string>
#include <string_view>

namespace panel_dossier {

/// `2026-11-25T02:00:00Z` as seconds since 1970. Throws std::runtime_error when the text has another form.
std::time_t seconds_from_iso(const std::string& time_utc);

/// The reverse.
std::string iso_from_seconds(std::time_t seconds);

/// `2026-11-25T02:00:00Z` as `D:20261125020000Z` (ISO 32000-2:2020, 7.9.4). Throws as seconds_from_iso.
std::string pdf_date(const std::string& time_utc);

/// The reverse. Throws std::runtime_error when the text has another form than pdf_date gives.
std::string iso_from_pdf_date(std::string_view date);

}  // namespace panel_dossier
