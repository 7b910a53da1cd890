#include "plugins/quantities/cutting/frame_opening.h"

#include <algorithm>
#include <vector>

#include "core/api/support/exact_sum.h"

namespace panel_dossier::quantities {

namespace {

constexpr const char* kSet = "Panel_AsBuilt";

struct Joint {
  std::string place;
  double clearance_m = 0.0;
};

struct JointLimits {
  double least_m = 0.0;
  std::optional<double> largest_m;
};

bool is_infill(const Panel& panel) {
  const auto arrangement = panel.properties.text("Panel_Identity", "Arrangement");
  return arrangement && arrangement->value == "INFILL";
}

/// Notes a least joint that is not given, and limits that no joint can keep.
JointLimits read_limits(FindingBuilder& finding, const Settings& settings) {
  JointLimits limits;
  const auto least_m = finding.positive(
      "least joint clearance", "", "m", settings.number("quantities.least_joint_m"),
      "setting 'quantities.least_joint_m' is missing: the narrowest joint that the project's seal can fill");
  if (least_m) limits.least_m = *least_m;
  const auto largest = settings.number("quantities.largest_joint_m");
  if (largest) limits.largest_m = finding.positive("largest joint clearance", "", "m", largest, "");
  if (limits.largest_m && *limits.largest_m < limits.least_m) {
    finding.missing("setting 'quantities.largest_joint_m' must not be below 'quantities.least_joint_m'");
  }
  return limits;
}

void add_joint(FindingBuilder& finding, std::vector<Joint>& joints, const std::string& place, double clearance_m,
               const char* formula) {
  const double rounded_m = rounded_to_millionth(clearance_m);
  finding.step("joint clearance " + place, "", rounded_m, "m", formula);
  joints.push_back({place, rounded_m});
}

/// How far outside the limits, in m; 0 or less when the joint keeps them.
double excess_m(const Joint& joint, const JointLimits& limits) {
  const double below_m = limits.least_m - joint.clearance_m;
  return limits.largest_m ? std::max(below_m, joint.clearance_m - *limits.largest_m) : below_m;
}

}  // namespace

std::optional<JointOutside> joint_outside_limits(FindingBuilder& finding, const Panel& panel, const Settings& settings,
                                                 const ActualSize& actual) {
  const auto width = panel.properties.number(kSet, "FrameOpeningWidth");
  const auto height = panel.properties.number(kSet, "FrameOpeningHeight");
  if (!width && !height) {
    if (is_infill(panel)) {
      finding.note(
          "The opening in the frame is not surveyed (Panel_AsBuilt.FrameOpeningWidth and FrameOpeningHeight): "
          "joints are not compared.");
    }
    return std::nullopt;
  }
  const auto opening_width_m = finding.positive("width of the opening in the frame, surveyed", "", "m", width,
                                                "Panel_AsBuilt.FrameOpeningWidth is missing beside the height");
  const auto opening_height_m = finding.positive("height of the opening in the frame, surveyed", "", "m", height,
                                                 "Panel_AsBuilt.FrameOpeningHeight is missing beside the width");
  const JointLimits limits = read_limits(finding, settings);
  if (finding.incomplete() || !actual.width_m || !actual.height_m) return std::nullopt;

  std::vector<Joint> joints;
  add_joint(finding, joints, "at each side", (*opening_width_m - *actual.width_m) / 2.0, "(opening − actual size) / 2");
  add_joint(finding, joints, "at the head", *opening_height_m - *actual.height_m, "opening − actual size");
  const Joint& worst = excess_m(joints[1], limits) > excess_m(joints[0], limits) ? joints[1] : joints[0];
  if (excess_m(worst, limits) <= 0.0) return std::nullopt;
  const bool too_narrow = worst.clearance_m < limits.least_m;
  return JointOutside{worst.clearance_m, too_narrow ? limits.least_m : *limits.largest_m, too_narrow, worst.place};
}

}  // namespace panel_dossier::quantities
