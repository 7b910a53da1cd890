// Interstitial condensation month by month: diffusion through a build-up, with condensate that gathers and dries.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "plugins/thermal/moisture/climate.h"

namespace panel_dossier::thermal {

struct VapourLayer {
  std::string name;
  double resistance_m2k_per_w = 0.0;  ///< at least 0
  double sd_m = 0.0;                  ///< μ · d, above 0
  double thickness_m = 0.0;           ///< for charts only
};

/// From inside. Surfaces resist heat only.
struct VapourBuildUp {
  std::vector<VapourLayer> layers;
  double r_si_m2k_per_w = 0.0;
  double r_se_m2k_per_w = 0.0;
};

/// Divides layers with R above 0.25 m²·K/W into equal ones of no more than that, so that condensation inside of a thick
/// layer is found (EN ISO 13788:2012, 6.4, from memory).
VapourBuildUp subdivided(const VapourBuildUp& build_up);

/// At the internal surface, each plane between two layers and the external surface.
struct VapourProfile {
  std::vector<double> sd_m;  ///< from the internal surface
  std::vector<double> temperature_c;
  std::vector<double> saturation_pa;
  std::vector<double> pressure_pa;
};

/// The state of a steady month. `wet`, one a plane of the profile, says where condensate lies: the pressure there is
/// that of saturation. Elsewhere the line is the highest convex one that saturation allows, the tangents from one point
/// of contact to the next. At a surface the pressure is at most that of saturation.
VapourProfile vapour_profile(const VapourBuildUp& build_up, const MonthClimate& climate, const std::vector<bool>& wet);

struct GlaserMonth {
  std::size_t month = 0;               ///< from 0 for January
  std::vector<double> held_kg_per_m2;  ///< condensate at each plane of the profile at the end of the month
  double vapour_from_inside_kg_per_m2 = 0.0;
  double vapour_to_outside_kg_per_m2 = 0.0;

  double total_kg_per_m2() const;
};

struct GlaserYear {
  bool condenses = false;
  bool dries_out = true;                    ///< nothing is left after twelve months
  std::array<GlaserMonth, kMonths> months;  ///< from the month in which the calculation starts
  std::vector<double> greatest_kg_per_m2;   ///< at each plane, at the end of any month
  double greatest_total_kg_per_m2 = 0.0;
  std::size_t critical_month = 0;  ///< from 0 for January: fastest condensation; coldest month when there is none
};

/// Starts dry in the first month that condenses after one that does not; where there are several such, in the one after
/// which the year ends with the least. Where every month condenses, in January. A month in which a plane dries is
/// divided at that moment, so mass is conserved. `build_up` is taken as it stands: subdivide it before.
/// (EN ISO 13788:2012, 6.4; from memory.)
GlaserYear assess_year(const VapourBuildUp& build_up, const YearClimate& climate);

}  // namespace panel_dossier::thermal
