// The limit on the U-value that holds for a project.
#pragma once

#include <optional>

#include "core/api/data_table.h"
#include "core/api/finding_builder.h"
#include "core/api/settings.h"

namespace panel_dossier::thermal {

/// The row of `limits` for settings `project.jurisdiction`, `project.use` and `project.assessment_date`, in W/(m²·K),
/// recorded as an input. None, with the reason noted in `builder`, when a setting is missing or no row holds that day.
std::optional<double> find_u_value_limit(const DataTable& limits, const Settings& settings, FindingBuilder& builder);

}  // namespace panel_dossier::thermal
