// The vapour control layer of a panel: where it stands, how tight it is, and what a puncture changes.
#pragma once

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/moisture/climate.h"
#include "plugins/thermal/moisture/glaser.h"
#include "plugins/thermal/transmittance/bridging.h"

namespace panel_dossier::thermal {

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

}  // namespace panel_dossier::thermal
