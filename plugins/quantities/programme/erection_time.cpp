#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/programme/production.h"

namespace panel_dossier::quantities {

Finding erection_time(const Panel& panel, const Settings& settings) {
  FindingBuilder finding("quantities.erection_time", "Time to erect the panel", panel.global_id,
                         "Output of one crew by area (common practice)");
  finding.decimals(2);
  const auto width_m = finding.positive("panel width", "b", "m", panel.width_m, "the panel has no width");
  const auto height_m = finding.positive("panel height", "h", "m", panel.height_m, "the panel has no height");
  const auto rate = finding.positive("gross area that one crew erects in an hour", "r", "m²/h",
                                     settings.number("quantities.crew_area_rate_m2_per_h"),
                                     "setting 'quantities.crew_area_rate_m2_per_h' is missing");
  if (const std::string batch = batch_of(panel, settings); !batch.empty()) finding.step_text("batch", batch);
  if (const auto order = erection_order(panel)) finding.step("erection order", "", *order, "");
  if (finding.incomplete()) return finding.not_assessed();

  const double gross_m2 = rounded_to_millionth(*width_m * *height_m);
  const double hours = rounded_to_millionth(gross_m2 / *rate);
  finding.step("gross area", "A_gross", gross_m2, "m²", "A_gross = b·h");
  finding.step("time of one crew", "t", hours, "h", "t = A_gross / r");
  finding.note(
      "An average over a whole job with its crane, from the crew output in the settings. It plans the "
      "programme; it is not the time of this one lift.");
  return finding.inform(hours, "h");
}

}  // namespace panel_dossier::quantities
