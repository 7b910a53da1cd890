// People, cranes and their hours, from the project settings.
#pragma once

#include <cstddef>
#include <optional>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"
#include "plugins/quantities/programme/programme_schedule.h"

namespace panel_dossier::quantities {

struct Site {
  double people = 0.0;  ///< of one crew; each crane has one
  MicroHours crew_day = 0;
  MicroHours lifting_day = 0;  ///< the shorter of the crew's and the crane's day
  std::size_t cranes = 0;
  /// Working days from a load's arrival to its first panel; none when the settings do not say, which counts as 0.
  std::optional<std::size_t> lead_days;
};

/// Reads `quantities.crew.people`, `cranes`, `hours_per_day`, `crane_hours_per_day`, `crew_area_rate_m2_per_h` and
/// `transport.lead_working_days` as inputs of the finding; notes what is missing or cannot be used.
Site read_site(FindingBuilder& finding, const Settings& settings);

}  // namespace panel_dossier::quantities
