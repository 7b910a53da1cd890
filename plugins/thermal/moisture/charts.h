// Charts and tables of condensation over the year.
#pragma once

#include <array>
#include <cstddef>
#include <string>

#include "core/api/finding/drawing.h"
#include "core/api/finding/finding.h"
#include "plugins/thermal/moisture/glaser.h"

namespace panel_dossier::thermal {

/// `between 'A' and 'B'`, `within 'A', 40 % of its depth`: plane `plane` of a subdivided build-up, surfaces left out.
std::string plane_name(const VapourBuildUp& build_up, std::size_t plane);

/// `nothing condenses`, `condenses and dries within the year` or `does not dry within the year`.
std::string outcome(const GlaserYear& year);

/// Condensate held at the end of each month, one curve a plane that ever holds any and one of their
/// sum where there are several. For a year that condenses.
Series condensate_series(const VapourBuildUp& build_up, const GlaserYear& year);

/// Where and when the planes between layers of a dry build-up come nearest to condensation.
struct HumidityYear {
  std::array<double, kMonths> highest{};  ///< p / p_sat, the highest of all planes, from January
  std::size_t worst_month = 0;            ///< from 0 for January
  std::size_t worst_plane = 0;            ///< in that month
};

/// The profiles of the steady months without condensate. `build_up`, of two layers or more, is taken as it stands:
/// subdivide it before.
HumidityYear humidity_year(const VapourBuildUp& build_up, const YearClimate& climate);

/// Relative humidity by month, beside the 100 % at which vapour condenses.
Series humidity_series(const HumidityYear& humidity);

/// Vapour pressure and saturation over the vapour diffusion thickness from the internal surface.
Series pressure_series(const VapourProfile& profile, const std::string& month);

/// Temperature over the depth from the internal surface.
Series profile_temperature_series(const VapourBuildUp& build_up, const VapourProfile& profile,
                                  const std::string& month);

/// g_c: what condenses (right of 0) and dries (left) in each month at each plane, a bar a month.
BarChart condensation_rate_chart(const VapourBuildUp& build_up, const GlaserYear& year);

/// Months from the start of the calculation, with the vapour that came and went, g_c of the month and M_a at its end;
/// M_a by plane where no more than three hold condensate.
Table condensate_table(const VapourBuildUp& build_up, const GlaserYear& year);

}  // namespace panel_dossier::thermal
