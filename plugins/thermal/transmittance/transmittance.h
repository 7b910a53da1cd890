// U-value and total resistance of the plain area of one panel.
#pragma once

#include <optional>

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/build_up.h"
#include "plugins/thermal/transmittance/combined_method.h"

namespace panel_dossier::thermal {

/// What later checks of the same panel start from.
struct Transmittance {
  BuildUp build_up;
  CombinedResistance resistance;
  double correction_w_per_m2k = 0.0;  ///< ΔU of annex F; 0 where it may be left out

  /// U in W/(m²·K) with its correction.
  double u_w_per_m2k() const { return resistance.transmittance() + correction_w_per_m2k; }
};

struct TransmittanceResult {
  Finding u_value;
  Finding r_value;
  std::optional<Transmittance> transmittance;  ///< none when it could not be worked out; the findings say why
};

/// `thermal.u_value` and `thermal.r_value` to EN ISO 6946:2017, 6.7.2 and annex F, judged against the limit of the
/// jurisdiction.
TransmittanceResult check_transmittance(const Panel& panel, const Project& project, const Settings& settings,
                                        const Tables& tables);

}  // namespace panel_dossier::thermal
