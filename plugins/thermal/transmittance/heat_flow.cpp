#include "plugins/thermal/transmittance/heat_flow.h"

namespace panel_dossier::thermal {

std::string_view to_string(HeatFlow direction) {
  switch (direction) {
    case HeatFlow::upwards: return "upwards";
    case HeatFlow::downwards: return "downwards";
    case HeatFlow::horizontal: break;
  }
  return "horizontal";
}

HeatFlow heat_flow_through(const Panel& panel) {
  constexpr double kSineOf30Degrees = 0.5;
  const double outward_rise = panel.frame.y_axis.z;
  if (outward_rise > kSineOf30Degrees) return HeatFlow::upwards;
  if (outward_rise < -kSineOf30Degrees) return HeatFlow::downwards;
  return HeatFlow::horizontal;
}

}  // namespace panel_dossier::thermal
