// U-value and total resistance of the plain area of one panel.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/finding/finding_builder.h"
#include "core/api/finding/panel_values.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"
#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/build_up.h"
#include "plugins/thermal/transmittance/envelope_correction.h"

namespace panel_dossier::thermal {

extern const CheckDeclaration kUValueCheck;
extern const CheckDeclaration kRValueCheck;

/// What the layers, framing and surfaces of a panel are read from.
std::vector<CheckInput> build_up_inputs();
/// Likewise U with its corrections.
std::vector<CheckInput> transmittance_inputs();

/// What later checks of the same panel start from.
struct Transmittance {
  BuildUp build_up;
  CombinedResistance resistance;
  EnvelopeCorrection correction = {};

  /// U in W/(m²·K) with its correction.
  double u_w_per_m2k() const { return resistance.transmittance() + correction.applied_w_per_m2k; }
};

struct TransmittanceResult {
  Finding u_value;
  Finding r_value;
  std::optional<Transmittance> transmittance;  ///< none when it could not be worked out; the findings say why

  /// Why a check that rests on the U-value is not assessed: `thermal.u_value is not assessed: …`.
  std::string why_not() const { return kUValueCheck.id + " is not assessed: " + u_value.reason; }
};

/// `thermal.u_value` and `thermal.r_value` to EN ISO 6946:2017, 6.7.2 and annex F. U is judged against the design value
/// of the settings and what the jurisdiction asks of a single wall, and does not pass beside a declared U-value that
/// says otherwise, nor where Pset_WallCommon.IsExternal is false and layers or openings say otherwise.
TransmittanceResult check_transmittance(const Panel& panel, const Project& project, const Settings& settings,
                                        const Tables& tables);

/// The finding as one of another check that rests on the same calculation.
Finding as_finding_of(const CheckDeclaration& check, Finding finding);

/// Begins a total of the project: records how many panels stand in it and notes those that have no value of `check`.
void add_panels(const Project& project, const PanelValues& values, const CheckDeclaration& check,
                FindingBuilder& builder);

/// `thermal.u_value` of the project: the average of the external panels weighted by area against the limit of the
/// jurisdiction. An average over some panels only would mislead, so one panel without a value makes it not assessed.
Finding average_u_value(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings,
                        const Tables& tables);

}  // namespace panel_dossier::thermal
