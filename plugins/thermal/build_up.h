// The build-up of one panel as heat sees it: layers with what bridges them, and the sections through them.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding_builder.h"
#include "core/api/panel.h"
#include "core/api/project.h"
#include "core/api/settings.h"
#include "plugins/thermal/bridging.h"
#include "plugins/thermal/combined_method.h"
#include "plugins/thermal/heat_flow.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

struct BuildUp {
  HeatFlow heat_flow = HeatFlow::horizontal;
  double r_si_m2k_per_w = 0.0;
  double r_se_m2k_per_w = 0.0;
  bool ends_at_cavity = false;  ///< a well-ventilated air layer stands for the outside
  BridgedLayers bridged;
};

/// Reads layers, framing and surfaces, recording inputs, notes and what is missing in `builder`. The result is whole
/// when `builder` is not incomplete afterwards, and must not be used otherwise.
BuildUp read_build_up(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                      FindingBuilder& builder);

/// The sections as paths of heat, in their order.
std::vector<HeatPath> heat_paths(const BridgedLayers& bridged);

/// The materials of a section that are not their layer's main material, joined by ` + `; `main materials` when none.
std::string section_name(const BridgedLayers& bridged, const SectionArea& section);

}  // namespace panel_dossier::thermal
