#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/take_off.h"
#include "core/api/support/units.h"
#include "plugins/quantities/checks.h"

namespace panel_dossier::quantities {

namespace {}  // namespace

Finding loads(const Panel& panel, const Project& project) {
  FindingBuilder finding("quantities.loads", "Self-weight of the panel on its support", panel.global_id,
                         "EN 1991-1-1:2002, section 5 (from memory)");
  finding.decimals(2);
  const auto width_m = finding.positive("panel width", "b", "m", panel.width_m, "the panel has no width");
  const TakeOff measured = take_off(panel, project);
  for (const std::string& what : measured.missing) finding.missing(what);
  const auto mass_kg = measured.mass_kg();
  if (finding.incomplete() || !mass_kg) return finding.not_assessed();

  const double weight_kn =
      rounded_to_millionth(*mass_kg * units::kStandardGravity_m_per_s2 / units::kNewtonPerKilonewton);
  finding.step("mass, see quantities.mass", "m", *mass_kg, "kg");
  finding.step("standard acceleration of free fall, ISO 80000-3:2019", "g", units::kStandardGravity_m_per_s2, "m/s²");
  finding.step("self-weight", "G_k", weight_kn, "kN", "G_k = m·g / 1000");
  finding.step("self-weight by metre of support", "g_k", weight_kn / *width_m, "kN/m", "g_k = G_k / b");
  finding.note(
      "Characteristic permanent action of what the export gives as the panel, spread evenly over its width. "
      "What is fixed to it on site adds to this. The structural engineer takes the load down.");
  return finding.inform(weight_kn, "kN");
}

}  // namespace panel_dossier::quantities
