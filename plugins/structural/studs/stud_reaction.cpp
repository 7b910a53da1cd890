#include "plugins/structural/studs/stud_reaction.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace panel_dossier::structural {

namespace {

double barrier_share(const StudDesign& design, std::size_t member) {
  if (!design.basis.balustrade) return 0.0;
  const StudEffects effects = stud_effects(design.systems[member], 0.0, design.barrier(member, 1.0));
  double largest = 0.0;
  for (const double reaction : effects.loaded.reactions_n) largest = std::max(largest, std::abs(reaction));
  return largest;
}

}  // namespace

StudReaction hardest_stud(const StudDesign& design) {
  StudReaction hardest;
  for (std::size_t i = 0; i < design.framing.members.size(); ++i) {
    const std::vector<double>& reactions = design.unit_effects[i].loaded.reactions_n;
    const double largest = *std::max_element(reactions.begin(), reactions.end());
    const VerticalMember& stud = design.framing.members[i];
    if (largest * stud.tributary_width_m <= hardest.per_line_load_m * hardest.width_m) continue;
    const double left_m = stud.left_spacing_m.value_or(0.0);
    const double right_m = stud.right_spacing_m.value_or(0.0);
    const double nearer_m = left_m > 0.0 && right_m > 0.0 ? std::min(left_m, right_m) : std::max(left_m, right_m);
    hardest = {i, largest, stud.tributary_width_m, nearer_m, 0.0};
  }
  hardest.barrier_share = barrier_share(design, hardest.member);
  return hardest;
}

}  // namespace panel_dossier::structural
