#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "plugins/quantities/checks.h"

namespace panel_dossier::quantities {

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

}  // namespace

Finding area(const Panel& panel, const Settings& settings) {
  FindingBuilder finding("quantities.area", "Area of the panel", panel.global_id,
                         "Measured net, every opening deducted in full (common practice)");
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
  finding.step("area of openings", "A_op", openings_m2, "m²", "A_op = Σ b_op·h_op");
  finding.step("net area", "A_net", net_m2, "m²", "A_net = A_gross − A_op");
  if (const auto kept = settings.number("quantities.opening_deduction_over_m2")) {
    const auto limit_m2 = finding.number("opening area up to which none is deducted", "A_lim", "m²", kept, "");
    if (!limit_m2) return finding.not_assessed();
    finding.step("area as billed", "A_bill", area_with_small_openings_m2(panel, *limit_m2), "m²",
                 "A_bill = A_gross − Σ A_op,i for A_op,i > A_lim");
  }
  finding.note("Areas are taken to whole square millimetres and then added exactly, so panels add up to the project.");
  return finding.inform(net_m2, "m²");
}

}  // namespace panel_dossier::quantities
