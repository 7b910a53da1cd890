// The machine's clock, as a build writes it.
#pragma once

#include <string>

namespace panel_dossier {

/// Now in UTC as `2026-11-25T02:00:00Z`.
std::string time_now_utc();

}  // namespace panel_dossier
