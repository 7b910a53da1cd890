#include <algorithm>
#include <cmath>
#include <string>

#include "core/api/exact_sum.h"
#include "core/api/finding_builder.h"
#include "plugins/quantities/checks.h"

namespace panel_dossier::quantities {

namespace {

/// Records target and actual size; the size of the deviation, 0 when one of them is missing.
double deviation_m(FindingBuilder& finding, const Panel& panel, const std::string& side,
                   const Sourced<double>& target_m) {
  std::string word = side;
  word.front() = static_cast<char>(word.front() - 'A' + 'a');
  const auto target = finding.positive("target " + word, "", "m", target_m, "the panel has no " + word);
  const auto actual = finding.positive("actual " + word, "", "m", panel.properties.number("Panel_AsBuilt", side),
                                       "Panel_AsBuilt." + side + " is missing: measure the panel and state it");
  if (!target || !actual) return 0.0;
  const double deviation = rounded_to_millionth(*actual - *target);
  finding.step("deviation of the " + word, "", deviation, "m", "actual size − target size");
  return std::abs(deviation);
}

}  // namespace

Finding as_built_size(const Panel& panel, const Settings& settings) {
  FindingBuilder finding("quantities.as_built_size", "Largest deviation of the panel as built", panel.global_id,
                         "ISO 1803:1997, deviation within permitted deviations (from memory)");
  finding.decimals(4);
  const auto tolerance_m =
      finding.positive("permitted deviation, either way", "", "m", settings.number("quantities.size_tolerance_m"),
                       "setting 'quantities.size_tolerance_m' is missing: the deviation that the project permits");
  const double largest_m = std::max({deviation_m(finding, panel, "Width", panel.width_m),
                                     deviation_m(finding, panel, "Height", panel.height_m),
                                     deviation_m(finding, panel, "Thickness", panel.thickness_m)});
  if (finding.incomplete()) return finding.not_assessed();
  return finding.judge(largest_m, "m", Relation::at_most, *tolerance_m,
                       "the panel is out of tolerance; check that it fits its place before it leaves the workshop");
}

}  // namespace panel_dossier::quantities
