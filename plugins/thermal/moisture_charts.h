// Charts and tables of condensation over the year.
#pragma once

#include <cstddef>
#include <string>

#include "core/api/drawing.h"
#include "core/api/finding.h"
#include "plugins/thermal/moisture_glaser.h"

namespace panel_dossier::thermal {

/// `between 'A' and 'B'`, `within 'A', 40 % of its depth`: plane `plane` of a subdivided build-up, surfaces left out.
std::string plane_name(const VapourBuildUp& build_up, std::size_t plane);

/// Condensate held at the end of each month, one curve a plane that ever holds any; where none does, the total.
Series condensate_series(const VapourBuildUp& build_up, const GlaserYear& year);

/// Vapour pressure and saturation over the vapour diffusion thickness from the internal surface.
Series pressure_series(const VapourProfile& profile, const std::string& month);

/// Temperature over the vapour diffusion thickness from the internal surface.
Series profile_temperature_series(const VapourProfile& profile, const std::string& month);

/// Months from the start of the calculation, with the vapour that came and went and the condensate at each plane.
Table condensate_table(const VapourBuildUp& build_up, const GlaserYear& year);

}  // namespace panel_dossier::thermal
