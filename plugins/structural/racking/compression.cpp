#include "plugins/structural/racking/compression.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>

namespace panel_dossier::structural {

namespace {

constexpr double kAtEdge_m = 0.005;
constexpr double kNegligible_n = 1.0;  ///< what two equal strips leave at the stud where they meet

/// The longest member under a vertical edge of the sheathing.
std::optional<std::size_t> stud_at(const Framing& framing, double edge_m) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < framing.members.size(); ++i) {
    const VerticalMember& member = framing.members[i];
    if (std::abs(member.x_m - edge_m) > member.width_m / 2.0 + kAtEdge_m) continue;
    if (!found || member.length_m() > framing.members[*found].length_m()) found = i;
  }
  return found;
}

/// Push (right edges, with the load to the right) less pull, one a member.
std::vector<double> pushes_n(StudDesign& design, const RackingDesign& racking) {
  std::vector<double> pushes(design.framing.members.size(), 0.0);
  const auto press = [&](double edge_m, double push_n) {
    if (const auto stud = stud_at(design.framing, edge_m)) {
      pushes[*stud] += push_n;
      return;
    }
    char place[32];
    std::snprintf(place, sizeof place, "%.3f", edge_m);
    design.racking_missing.push_back("no stud under the edge of the sheathing at x = " + std::string(place) +
                                     " m, which racking presses");
  };
  for (const RackingStrip& strip : racking.strips) {
    press(strip.from_m, -strip.compression_n);
    press(strip.from_m + strip.width_m, strip.compression_n);
  }
  return pushes;
}

}  // namespace

void add_racking_compression(StudDesign& design, const RackingDesign& racking) {
  if (!racking.missing.empty() || racking.load_n == 0.0) return;
  const std::vector<double> pushes = pushes_n(design, racking);
  const std::size_t without = design.cases.size();
  for (std::size_t i = 0; i < without; ++i) {
    StudCase result = design.cases[i];
    // The strips' forces carry γQ already.
    const double share = result.combination.wind_factor / design.basis.factors.variable;
    result.racking_n = share * std::abs(pushes[result.member]);
    if (result.racking_n < kNegligible_n) continue;
    result.combination.name += ", with racking";
    result.combination.expression += share < 1.0 ? " + ψ_0,W · F_i,c,Ed" : " + F_i,c,Ed";
    result.forces.axial_n += result.racking_n;
    result.stability = verify_stability(design.section(result.member), result.resistance,
                                        design.restraint(result.member), result.forces);
    design.cases.push_back(std::move(result));
  }
}

}  // namespace panel_dossier::structural
