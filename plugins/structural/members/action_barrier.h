// What persons lean with against a panel that acts as a barrier: EN 1991-1-1:2002 6.4.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/settings.h"
#include "plugins/structural/tables.h"

namespace panel_dossier::structural {

/// A horizontal load along the panel, out of its plane and towards the outside.
struct LineLoad {
  double n_per_m = 0.0;   ///< characteristic
  double height_m = 0.0;  ///< above the foot of the panel
};

struct BarrierAction {
  LineLoad load;
  double psi0 = 0.0;
  double psi2 = 0.0;
  std::string duration;  ///< load-duration class of its category of use
  std::vector<Input> inputs;
  std::vector<std::string> missing;  ///< not empty: the rest means nothing
};

/// None when the panel names neither Panel_Structure.BarrierLineLoad nor BarrierLoadCategory: it is no barrier. The
/// height is Panel_Structure.BarrierHeight, else setting `structural.barrier_height_m`.
std::optional<BarrierAction> read_barrier(const Panel& panel, const Settings& settings, const Tables& tables,
                                          const std::string& annex);

}  // namespace panel_dossier::structural
