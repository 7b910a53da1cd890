// Condensation inside of a panel over the year, with the layers of the panel as water vapour sees them and its vapour
// control layer.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/moisture/climate.h"
#include "plugins/thermal/moisture/glaser.h"
#include "plugins/thermal/tables.h"
#include "plugins/thermal/transmittance/bridging.h"
#include "plugins/thermal/transmittance/build_up.h"
#include "plugins/thermal/transmittance/transmittance.h"

namespace panel_dossier::thermal {

/// Index of the layer whose main material resists heat most; the warm side ends with it.
std::size_t main_insulation_layer(const BridgedLayers& bridged);

/// The materials of one section, whole layers. An unventilated air layer has s_d = 0.01 m whatever its thickness (EN
/// ISO 13788:2012, from memory). Of the two vapour resistance factors of a material the less favourable counts: the
/// smaller up to the main insulation, the larger beyond it. They are recorded as inputs; what is missing is noted in
/// `builder`.
std::optional<VapourBuildUp> vapour_build_up(const BuildUp& build_up, const SectionArea& section,
                                             const Project& project, FindingBuilder& builder);

/// Index of the vapour control layer: of the layers of category `membrane` that stand inside of the main insulation,
/// the one with the greatest s_d. `build_up` is not subdivided.
std::optional<std::size_t> vapour_control_layer(const Panel& panel, const BridgedLayers& bridged,
                                                const VapourBuildUp& build_up);

/// One section of a panel over a year; all that it refers to must outlive it.
struct AssessedSection {
  const Panel& panel;
  const BridgedLayers& bridged;
  const VapourBuildUp& build_up;  ///< whole layers, not subdivided
  const GlaserYear& year;
  const YearClimate& climate;
};

/// Records s_d on either side of the main insulation, the layer tightest against vapour and the vapour control layer
/// with the share of the resistance inside of it, and repeats the year with the layer punctured, its s_d that of the
/// setting `thermal.punctured_vapour_control_sd_m` in m. Nothing of it is judged; what departs from common practice and
/// what a puncture changes are notes.
void add_vapour_control(const AssessedSection& section, const Settings& settings, FindingBuilder& builder);

extern const CheckDeclaration kInterstitialCondensationCheck;

/// `thermal.interstitial_condensation` (EN ISO 13788:2012, 6), judged in the largest section. The value is the most
/// condensate held at the end of any month, all planes together. Passes when nothing condenses, or when all of it dries
/// within the year and the value is at most the row of condensate_limits.csv that `thermal.condensate_limit` names;
/// without that setting such a result is not assessed and keeps its value. Fails when some is left after twelve months.
Finding check_interstitial_condensation(const Panel& panel, const Project& project, const Settings& settings,
                                        const Tables& tables, const TransmittanceResult& panel_transmittance);

}  // namespace panel_dossier::thermal
