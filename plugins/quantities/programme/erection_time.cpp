#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/roles.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/words.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/programme/lift_cycle.h"
#include "plugins/quantities/programme/order.h"
#include "plugins/quantities/takeoff/project_total.h"

namespace panel_dossier::quantities {

namespace {

constexpr const char* kAreaRateSetting = "quantities.crew_area_rate_m2_per_h";
/// Panels of a job are larger or smaller than those that the experience is of, but not by so much.
constexpr double kMostFromExperience = 0.25;
constexpr const char* kOutputByArea = "Output of one crew by area (common practice)";

}  // namespace

const CheckDeclaration kErectionTimeCheck{
    .id = "quantities.erection_time",
    .title = "Time to erect the panel",
    .project_title = "Time to erect all panels, one crew",
    .sentence =
        "The time to erect the panel is that of one lift, of crane or crew, whichever is busy longer: attach, hoist "
        "and "
        "turn, place, fix, release and back. Where the settings describe no lift it is the gross area over the area "
        "that one crew erects in an hour. The project's is the sum of its panels.",
    .clause = "Cycle of a lift (common practice)",
    .other_clauses = {kOutputByArea, kSumOverPanels},
    .units = {"h"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs =
        erection_inputs({optional_property("Panel_Identity.ErectionOrder"), optional_property("Panel_Identity.Batch"),
                         optional_setting("quantities.panels_per_batch"), optional_setting("quantities.hours_per_day"),
                         optional_setting("quantities.crane_hours_per_day")}),
    .limits = {"How hard this one panel is to place: the times of the cycle, and an output by area, are averages.",
               "Turning a panel up that travelled lying.", "Stops for wind, weather, deliveries and inspections.",
               "Work after the panel is fixed, such as sealing."},
    .role = std::string(role::kErection),
    .for_workshop = true};

namespace {

std::optional<double> hours_by_area(FindingBuilder& finding, const Settings& settings, double gross_m2) {
  const auto rate =
      finding.positive("gross area that one crew erects in an hour", "r", "m²/h", settings.number(kAreaRateSetting),
                       "setting 'quantities.lift_cycle' is missing, the times of a lift; or at least setting "
                       "'quantities.crew_area_rate_m2_per_h', the output of a crew");
  if (!rate || finding.incomplete()) return std::nullopt;
  finding.clause(kOutputByArea).step("time of one crew", "t", gross_m2 / *rate, "h", "t = A_gross / r");
  finding.note(
      "An average over a whole job with its crane, from the crew output in the settings. It plans the "
      "programme; it is not the time of this one lift.");
  return gross_m2 / *rate;
}

std::optional<double> hours_by_cycle(FindingBuilder& finding, const Panel& panel, const Settings& settings) {
  const auto time_h = cycle_hours(finding, panel, settings);
  finding.note(
      "The times of the settings are averages of an ordinary lift from a vehicle beside the crane, with hoisting and "
      "turning one after the other. How many fixings hold a panel before the hook is taken off is for the engineer of "
      "its temporary state.");
  return time_h;
}

}  // namespace

Finding erection_time(const Panel& panel, const Settings& settings) {
  FindingBuilder finding(kErectionTimeCheck, panel.global_id);
  finding.decimals(2);
  const auto width_m = finding.positive("panel width", "b", "m", panel.width_m, "the panel has no width");
  const auto height_m = finding.positive("panel height", "h", "m", panel.height_m, "the panel has no height");
  if (const std::string batch = batch_of(panel, settings); !batch.empty()) {
    finding.step_text("batch", batch).value_text("batch", batch);
  }
  if (const auto order = erection_order(panel)) {
    finding.step("erection order", "", *order, "").value_text("erection_order", std::to_string(*order));
  }
  const double gross_m2 = rounded_to_millionth(width_m.value_or(0.0) * height_m.value_or(0.0));
  finding.step("gross area", "A_gross", gross_m2, "m²", "A_gross = b·h");
  const auto time_h =
      cycle_given(settings) ? hours_by_cycle(finding, panel, settings) : hours_by_area(finding, settings, gross_m2);
  if (!time_h || finding.incomplete()) return finding.not_assessed();
  return finding.inform(rounded_to_millionth(*time_h), "h");
}

namespace {

/// Of a working day's hours those in which the crane lifts; none where the settings do not give both.
std::optional<double> share_of_day_lifted(FindingBuilder& finding, const Settings& settings) {
  const auto working = settings.number("quantities.hours_per_day");
  const auto lifting = settings.number("quantities.crane_hours_per_day");
  if (!working || !lifting || !(working->value > 0.0) || !(lifting->value > 0.0)) return std::nullopt;
  finding.number("working hours of a day", "d_w", "h", working, {});
  finding.number("hours of a day in which a crane lifts", "d_c", "h", lifting, {});
  return std::min(working->value, lifting->value) / working->value;
}

}  // namespace

Finding project_erection_time(const Project& project, const std::vector<PanelFindings>& panels,
                              const Settings& settings) {
  Finding total = project_total({kErectionTimeCheck, "h", 1}, project, panels);
  const auto experience = settings.number(kAreaRateSetting);
  const double* hours = std::get_if<double>(&total.value);
  if (!experience || hours == nullptr || !cycle_given(settings)) return total;
  ExactSum gross_m2;
  for (const PanelFindings& panel : panels) gross_m2.add(panel.panel->gross_area_m2());
  FindingBuilder compared(kErectionTimeCheck, "");
  compared.clause(kSumOverPanels).decimals(1);
  const auto lifting = share_of_day_lifted(compared, settings);
  const double output = gross_m2.total() / *hours * lifting.value_or(1.0);
  compared.number("gross area that one crew erects in an hour, as experienced", "r", "m²/h", experience, {});
  compared.step("number of panels", "n", static_cast<double>(panels.size()), "")
      .step("gross area of all panels", "A", gross_m2.total(), "m²")
      .step("total of all panels", "Σ", *hours, "h", "Σ = sum(total)")
      .step("output of one crew by the cycle of a lift, over its working hours", "o", output, "m²/h",
            lifting ? "o = A / Σ · min(d_w; d_c) / d_w" : "o = A / Σ")
      .step("output against experience", "q", output / experience->value, "", "q = o / r");
  for (Table& table : total.tables) compared.table(std::move(table));
  for (std::string& note : total.notes) compared.note(std::move(note));
  if (std::abs(output / experience->value - 1.0) > kMostFromExperience) {
    return compared.not_assessed(
        "the times of setting 'quantities.lift_cycle' give an output over the working day of " + fixed_text(output, 1) +
        " m²/h, more than a quarter away from the " + fixed_text(experience->value, 1) + " m²/h of setting '" +
        kAreaRateSetting +
        "': correct the one that is wrong, or leave the output out where it is "
        "of panels of another kind");
  }
  return compared.inform(*hours, "h");
}

}  // namespace panel_dossier::quantities
