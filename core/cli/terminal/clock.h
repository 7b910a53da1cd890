// The build time: the machine's clock, or a time the user fixes.
#pragma once

#include <string>

namespace panel_dossier {

/// Now in UTC as `2026-11-25T02:00:00Z`.
std::string time_now_utc();

/// True for an existing date and time of that very form.
bool is_time_utc(const std::string& text);

}  // namespace panel_dossier
