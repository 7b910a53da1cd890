#include <string>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/finding/roles.h"
#include "core/api/support/exact_sum.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/takeoff/project_total.h"

namespace panel_dossier::quantities {

const CheckDeclaration kAreaCheck{
    .id = "quantities.area",
    .title = "Area of the panel",
    .project_title = "Net area of all panels",
    .sentence =
        "The net area of the panel's face is its width times its height less the area of every opening; the "
        "project's is the sum of its panels.",
    .clause = "Measured net, every opening deducted in full (common practice)",
    .other_clauses = {kSumOverPanels},
    .units = {"m²"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs = {optional_setting("quantities.opening_deduction_over_m2")},
    .limits = {"Gable ends, rebates and other outlines that are no rectangle: the panel is measured by its overall "
               "width and height.",
               "Reveals and the edges of the panel."},
    .role = std::string(role::kArea)};

namespace {

/// Openings of at most the limit stay in, as bills of quantities usually measure.
double area_with_small_openings_m2(const Panel& panel, double largest_kept_m2) {
  ExactSum sum;
  sum.add(panel.gross_area_m2());
  for (const Opening& opening : panel.openings) {
    if (opening.area_m2() > largest_kept_m2) sum.add(-opening.area_m2());
  }
  return sum.total();
}

Table opening_table(const Panel& panel) {
  Table table{"Openings", {{"opening", ""}, {"width", "m"}, {"height", "m"}, {"area", "m²"}}, {}};
  for (const Opening& opening : panel.openings) {
    table.rows.push_back({opening.name, rounded_to_millionth(opening.width_m()),
                          rounded_to_millionth(opening.height_m()), rounded_to_millionth(opening.area_m2())});
  }
  return table;
}

}  // namespace

Finding area(const Panel& panel, const Settings& settings) {
  FindingBuilder finding(kAreaCheck, panel.global_id);
  finding.decimals(3);
  const auto width_m = finding.positive("panel width", "b", "m", panel.width_m, "the panel has no width");
  const auto height_m = finding.positive("panel height", "h", "m", panel.height_m, "the panel has no height");
  if (finding.incomplete()) return finding.not_assessed();

  const double gross_m2 = rounded_to_millionth(*width_m * *height_m);
  ExactSum openings;
  for (const Opening& opening : panel.openings) openings.add(opening.area_m2());
  const double openings_m2 = openings.total();
  const double net_m2 = ExactSum().add(gross_m2).add(-openings_m2).total();
  if (net_m2 <= 0.0) return finding.not_assessed("the openings are larger than the panel; check their sizes");

  finding.step("gross area", "A_gross", gross_m2, "m²", "A_gross = b·h");
  finding.step("number of openings", "n", static_cast<double>(panel.openings.size()), "");
  finding.step("area of openings", "A_op", openings_m2, "m²", panel.openings.empty() ? "" : "A_op = sum(area)");
  finding.step("net area", "A_net", net_m2, "m²", "A_net = A_gross − A_op");
  if (!panel.openings.empty()) finding.table(opening_table(panel));
  if (const auto kept = settings.number("quantities.opening_deduction_over_m2")) {
    const auto limit_m2 = finding.number("opening area up to which none is deducted", "A_lim", "m²", kept, "");
    if (limit_m2 && *limit_m2 < 0.0)
      finding.missing("setting 'quantities.opening_deduction_over_m2' must not be negative");
    if (finding.incomplete()) return finding.not_assessed();
    finding.step("area as billed", "A_bill", area_with_small_openings_m2(panel, *limit_m2), "m²");
    finding.note("The area as billed is the gross area less every opening that is larger than A_lim.");
  }
  finding.note("Areas are taken to whole square millimetres and then added exactly, so panels add up to the project.");
  finding.value("gross", gross_m2, "m²").value("openings", openings_m2, "m²");
  return finding.inform(net_m2, "m²");
}

}  // namespace panel_dossier::quantities
