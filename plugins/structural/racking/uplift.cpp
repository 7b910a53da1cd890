#include "plugins/structural/racking/uplift.h"

#include <algorithm>
#include <cmath>

#include "core/api/support/tolerances.h"
#include "plugins/structural/fixings/fastener_parts.h"

namespace panel_dossier::structural {

namespace {

constexpr double kBesideEdge_m = 0.200;
constexpr double kNegligibleUplift_n = 1.0;  ///< what two equal strips leave where they meet

std::vector<double> edges_of(const std::vector<RackingStrip>& strips) {
  std::vector<double> edges;
  for (const RackingStrip& strip : strips) {
    for (const double x_m : {strip.from_m, strip.to_m()}) {
      const bool known = std::any_of(edges.begin(), edges.end(),
                                     [&](double edge) { return std::abs(edge - x_m) < tolerance::kSameLine_m; });
      if (!known) edges.push_back(x_m);
    }
  }
  std::sort(edges.begin(), edges.end());
  return edges;
}

/// Force of the strips that begin (or end) at an edge, and the narrowest of them.
struct Side {
  double force_n = 0.0;
  double width_m = 0.0;

  void add(const RackingStrip& strip) {
    width_m = force_n > 0.0 ? std::min(width_m, strip.width_m) : strip.width_m;
    force_n += strip.compression_n;
  }
};

void find_tie_down(Uplift& uplift, const Panel& panel) {
  for (std::size_t i = 0; i < panel.parts.size(); ++i) {
    const Part& part = panel.parts[i];
    if (!ties_down(part) || !part.bounds) continue;
    if (part.bounds->min.x > uplift.x_m + kBesideEdge_m || part.bounds->max.x < uplift.x_m - kBesideEdge_m) continue;
    const auto tension = part.properties.number("Panel_Fastener", "DesignTension");
    const bool usable = tension && std::isfinite(tension->value) && tension->value > 0.0;
    if (!uplift.part) uplift.part = i;
    if (!usable || (uplift.resistance_n && *uplift.resistance_n <= tension->value)) continue;
    uplift.part = i;
    uplift.resistance_n = tension->value;
  }
}

}  // namespace

std::vector<Uplift> uplifts(const Panel& panel, const std::vector<RackingStrip>& strips, double held_down_n_per_m) {
  std::vector<Uplift> found;
  for (const double x_m : edges_of(strips)) {
    Side right;
    Side left;
    for (const RackingStrip& strip : strips) {
      if (std::abs(strip.from_m - x_m) < tolerance::kSameLine_m) right.add(strip);
      if (std::abs(strip.to_m() - x_m) < tolerance::kSameLine_m) left.add(strip);
    }
    Uplift uplift;
    uplift.x_m = x_m;
    uplift.pull_n = std::abs(right.force_n - left.force_n);
    uplift.begins = right.force_n > left.force_n;
    uplift.held_down_n = held_down_n_per_m * (right.width_m + left.width_m) / 2.0;
    if (uplift.pull_n < kNegligibleUplift_n) continue;
    find_tie_down(uplift, panel);
    found.push_back(uplift);
  }
  return found;
}

}  // namespace panel_dossier::structural
