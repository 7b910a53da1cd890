#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/roles.h"
#include "core/api/support/exact_sum.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/programme/order.h"
#include "plugins/quantities/takeoff/project_total.h"

namespace panel_dossier::quantities {

const CheckDeclaration kErectionTimeCheck{
    .id = "quantities.erection_time",
    .title = "Time to erect the panel",
    .project_title = "Time to erect all panels, one crew",
    .sentence =
        "The time to erect the panel is its gross area over the area that one crew erects in an hour; the "
        "project's is the sum of its panels.",
    .clause = "Output of one crew by area (common practice)",
    .other_clauses = {kSumOverPanels},
    .units = {"h"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = {setting("quantities.crew_area_rate_m2_per_h"), optional_property("Panel_Identity.ErectionOrder"),
               optional_property("Panel_Identity.Batch"), optional_setting("quantities.panels_per_batch")},
    .limits = {"How hard this one panel is to place: the output is an average over a whole job with its crane.",
               "Stops for wind, weather, deliveries and inspections.",
               "Work after the panel is fixed, such as sealing."},
    .role = std::string(role::kErection),
    .for_workshop = true};

Finding erection_time(const Panel& panel, const Settings& settings) {
  FindingBuilder finding(kErectionTimeCheck, panel.global_id);
  finding.decimals(2);
  const auto width_m = finding.positive("panel width", "b", "m", panel.width_m, "the panel has no width");
  const auto height_m = finding.positive("panel height", "h", "m", panel.height_m, "the panel has no height");
  const auto rate = finding.positive("gross area that one crew erects in an hour", "r", "m²/h",
                                     settings.number("quantities.crew_area_rate_m2_per_h"),
                                     "setting 'quantities.crew_area_rate_m2_per_h' is missing");
  if (const std::string batch = batch_of(panel, settings); !batch.empty()) {
    finding.step_text("batch", batch).value_text("batch", batch);
  }
  if (const auto order = erection_order(panel)) {
    finding.step("erection order", "", *order, "").value_text("erection_order", std::to_string(*order));
  }
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
