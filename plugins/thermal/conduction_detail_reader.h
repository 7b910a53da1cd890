// Reads what the junction details need to know of a panel from the export.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding.h"
#include "core/api/panel.h"
#include "core/api/project.h"
#include "plugins/thermal/conduction_detail.h"

namespace panel_dossier::thermal::conduction {

/// Thermal resistance in m²·K/W of an air layer that is not well ventilated; none when it is not known.
using AirResistance = std::function<std::optional<double>(const Layer&)>;

struct DetailBuildUpReading {
  DetailBuildUp build_up;
  std::vector<Input> inputs;
  std::vector<std::string> missing;  ///< properties without which no detail of this panel can be drawn up
};

/// Layers from inside up to the outside or to a well-ventilated air layer, outside of which nothing counts and R_se is
/// R_si (EN ISO 6946:2017, 6.9.4). Membranes without λ are left out. A layer is framed when a stud, post, rail, lintel
/// or blocking reaches through at least half of it; battens are left out of the details. Timber at the edges of the
/// panel and of its first window or door is measured from the parts that touch them, one behind the other.
DetailBuildUpReading read_detail_build_up(const Panel& panel, const Project& project,
                                          const AirResistance& air_resistance);

}  // namespace panel_dossier::thermal::conduction
