#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/fixed_text.h"
#include "core/api/support/units.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/frame_opening.h"

namespace panel_dossier::quantities {

namespace {

constexpr const char* kSet = "Panel_AsBuilt";

struct Measured {
  std::optional<double> actual_m;
  double deviation_m = 0.0;  ///< its size; 0 when a size is missing
};

/// Records target and actual size.
Measured measured(FindingBuilder& finding, const Panel& panel, const std::string& side,
                  const Sourced<double>& target_m) {
  std::string word = side;
  word.front() = static_cast<char>(word.front() - 'A' + 'a');
  const auto target = finding.positive("target size, " + word, "", "m", target_m, "the panel has no " + word);
  const auto actual = finding.positive("actual size, " + word, "", "m", panel.properties.number(kSet, side),
                                       "Panel_AsBuilt." + side + " is missing: measure the panel and state it");
  if (!target || !actual) return {actual, 0.0};
  const double deviation = rounded_to_millionth(*actual - *target);
  finding.step("deviation, " + word, "", deviation, "m", "actual size − target size");
  return {actual, std::abs(deviation)};
}

struct Squareness {
  double difference_m = 0.0;
  double permitted_m = 0.0;
};

/// Difference of the diagonals, when they were measured; notes what is missing beside one of them.
std::optional<Squareness> squareness(FindingBuilder& finding, const Panel& panel, const Settings& settings) {
  const auto first = panel.properties.number(kSet, "Diagonal1");
  const auto second = panel.properties.number(kSet, "Diagonal2");
  if (!first && !second) return std::nullopt;
  const auto first_m = finding.positive("first diagonal, actual size", "", "m", first,
                                        "Panel_AsBuilt.Diagonal1 is missing beside the other diagonal");
  const auto second_m = finding.positive("second diagonal, actual size", "", "m", second,
                                         "Panel_AsBuilt.Diagonal2 is missing beside the other diagonal");
  const auto permitted_m = finding.positive(
      "permitted difference of the diagonals", "", "m", settings.number("quantities.squareness_tolerance_m"),
      "setting 'quantities.squareness_tolerance_m' is missing: the difference of diagonals that the project permits");
  if (!first_m || !second_m || !permitted_m) return std::nullopt;
  const double difference_m = rounded_to_millionth(std::abs(*first_m - *second_m));
  finding.step("out of square", "", difference_m, "m", "difference of the diagonals");
  return Squareness{difference_m, *permitted_m};
}

std::string millimetres_of(double value_m) {
  return fixed_text(units::millimetres_from_metres(value_m), 1) + " mm";
}

Finding judge_joint(FindingBuilder& finding, const JointOutside& joint) {
  const std::string size = "the joint " + joint.place + " is " + millimetres_of(joint.clearance_m);
  if (joint.too_narrow) {
    return finding.judge(joint.clearance_m, "m", Relation::at_least, joint.limit_m,
                         size +
                             ", too narrow for its seal, though the panel is in tolerance; survey the opening "
                             "again and agree a mend before the panel leaves the workshop");
  }
  return finding.judge(joint.clearance_m, "m", Relation::at_most, joint.limit_m,
                       size +
                           ", too wide for its seal, though the panel is in tolerance; agree a packer or another "
                           "seal before the panel leaves the workshop");
}

}  // namespace

Finding as_built_size(const Panel& panel, const Settings& settings) {
  FindingBuilder finding("quantities.as_built_size", "Panel as built: deviation, squareness and joints",
                         panel.global_id, "ISO 1803:1997, deviation within permitted deviations (from memory)");
  finding.decimals(4);
  const auto tolerance_m =
      finding.positive("permitted deviation, either way", "", "m", settings.number("quantities.size_tolerance_m"),
                       "setting 'quantities.size_tolerance_m' is missing: the deviation that the project permits");
  const Measured width = measured(finding, panel, "Width", panel.width_m);
  const Measured height = measured(finding, panel, "Height", panel.height_m);
  const Measured thickness = measured(finding, panel, "Thickness", panel.thickness_m);
  const auto square = squareness(finding, panel, settings);
  const auto joint = joint_outside_limits(finding, panel, settings, {width.actual_m, height.actual_m});
  if (finding.incomplete()) return finding.not_assessed();

  const double largest_m = std::max({width.deviation_m, height.deviation_m, thickness.deviation_m});
  if (largest_m <= *tolerance_m) {
    // The finding judges what does not hold; the steps keep the rest.
    if (square && square->difference_m > square->permitted_m) {
      return finding.judge(square->difference_m, "m", Relation::at_most, square->permitted_m,
                           "the panel is out of square, though its sides are in tolerance; check that it fits its "
                           "place before it leaves the workshop");
    }
    if (joint) return judge_joint(finding, *joint);
  }
  return finding.judge(largest_m, "m", Relation::at_most, *tolerance_m,
                       "the panel is out of tolerance; check that it fits its place before it leaves the workshop");
}

}  // namespace panel_dossier::quantities
