// Deflection of studs and the limit that the project sets for it.
#pragma once

#include <optional>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// Span over deflection: setting structural.deflection_limit_ratio, else the row of deflection_limits.csv that
/// structural.deflection_finish names; none, noted as missing, without either.
std::optional<double> deflection_ratio(FindingBuilder& builder, const Settings& settings, const Tables& tables);

/// structural.deflection: final deflection in mm at most span / ratio.
Finding deflection(const Panel& panel, const StudDesign& design, const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::structural
