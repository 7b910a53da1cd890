// Reads what the junction details need to know of a panel from the export.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "plugins/thermal/junctions/conduction_detail.h"

namespace panel_dossier::thermal::conduction {

/// Thermal resistance in m²·K/W of an air layer, by its index in Panel::layers, that is not well ventilated; none when
/// it is not known.
using AirResistance = std::function<std::optional<double>(std::size_t panel_layer)>;

struct DetailBuildUpReading {
  DetailBuildUp build_up;
  std::vector<Input> inputs;
  std::vector<std::string> missing;  ///< properties without which no detail of this panel can be drawn up
};

/// What the U-value of the panel says of its layers, so that details and U-value agree.
struct CountedLayers {
  std::size_t count = 0;  ///< layers from inside that count: all, or those inside a well-ventilated air layer
  double r_si_m2k_per_w = 0.0;
  double r_se_m2k_per_w = 0.0;
};

/// The counted layers from inside. Membranes without λ are left out. A layer is framed when a stud, post, rail, lintel
/// or blocking reaches through at least half of it; battens are left out of the details. Timber at the edges of the
/// panel is measured from the parts that touch them, one behind the other; that of openings by `read_opening`.
DetailBuildUpReading read_detail_build_up(const Panel& panel, const Project& project, const CountedLayers& counted,
                                          const AirResistance& air_resistance);

/// Timber round one opening of the panel, and the frame in it.
void read_opening(const Panel& panel, const Opening& opening, DetailBuildUp& build_up);

}  // namespace panel_dossier::thermal::conduction
