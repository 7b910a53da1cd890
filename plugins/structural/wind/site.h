// What the settings say about the wind at the site.
#pragma once

#include <optional>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"
#include "plugins/structural/tables.h"
#include "plugins/structural/wind/wind.h"

namespace panel_dossier::structural {

/// Complete when the builder it was read with is.
struct WindSite {
  double fundamental_velocity_m_per_s = 0.0;  ///< vb,0, or vb,map where an altitude is given
  std::optional<double> altitude_m;           ///< only for an annex with an altitude factor
  double direction_factor = 1.0;              ///< cdir, 4.2(2) note 2
  double season_factor = 1.0;                 ///< cseason, 4.2(2) note 3
  double probability_factor = 1.0;            ///< cprob, 4.2(2) note 4
  double orography_factor = 1.0;              ///< co
  double roughness_length_m = 0.0;
  double minimum_height_m = 0.0;
  double building_height_m = 0.0;

  double basic_velocity_m_per_s(double height_m) const;
  /// Needs 0 < height <= kMaximumWindHeight_m.
  PeakVelocityPressure at(double height_m) const;
};

/// Refuses an annex with a procedure of its own unless setting `structural.wind.procedure` is `recommended`.
WindSite read_site(FindingBuilder& builder, const Settings& settings, const Tables& tables);

/// The steps from v_b,0 to c_e at one height.
void add_site_steps(FindingBuilder& builder, const WindSite& site, double height_m);

}  // namespace panel_dossier::structural
