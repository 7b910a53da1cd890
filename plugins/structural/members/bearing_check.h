// Bearing of studs and posts on the sole rail.
#pragma once

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// structural.bearing: σc,90,d against kc,90·fc,90,d in N/mm² of the rail, EN 1995-1-1 6.1.5, for the governing member.
Finding bearing(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                const StudDesign& design);

}  // namespace panel_dossier::structural
