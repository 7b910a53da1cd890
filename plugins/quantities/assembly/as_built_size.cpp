#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/settings.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/units.h"
#include "core/api/support/words.h"
#include "plugins/quantities/checks.h"

namespace panel_dossier::quantities {

std::vector<CheckInput> as_built_inputs(std::vector<CheckInput> others) {
  const std::vector<CheckInput> own = {property("Panel_AsBuilt.Width"),
                                       property("Panel_AsBuilt.Height"),
                                       property("Panel_AsBuilt.Thickness"),
                                       optional_property("Panel_AsBuilt.Diagonal1"),
                                       optional_property("Panel_AsBuilt.Diagonal2"),
                                       optional_property("Panel_AsBuilt.FrameOpeningWidth"),
                                       optional_property("Panel_AsBuilt.FrameOpeningHeight"),
                                       optional_property("Panel_Identity.Arrangement"),
                                       optional_property("Pset_Tolerance.OverallTolerance"),
                                       optional_setting("quantities.size_tolerance_m"),
                                       optional_setting("quantities.squareness_tolerance_m"),
                                       optional_setting("quantities.least_joint_m"),
                                       optional_setting("quantities.largest_joint_m"),
                                       optional_property("Panel_Install.Date")};
  others.insert(others.end(), own.begin(), own.end());
  return others;
}

const CheckDeclaration kAsBuiltSizeCheck{
    .id = "quantities.as_built_size",
    .title = "Panel as built: deviation, squareness and joints",
    .project_title = {},
    .sentence =
        "Width, height and thickness measured in the workshop lie within the permitted deviation of their "
        "targets, the diagonals within the permitted difference of each other and, with what both permit, of the "
        "diagonal of the target size, and the joints left in the surveyed opening of the frame within their limits; "
        "the "
        "first that does not hold is judged.",
    .clause = "ISO 1803:1997, deviation within permitted deviations (from memory)",
    .units = {"m"},
    .kind = CheckKind::limit,
    .scope = CheckScope::panels,
    .inputs = as_built_inputs({}),
    .limits = {"Where in its opening the panel stands.", "An opening that is out of square or twisted.",
               "Movement of the frame after the survey: see structural.frame_fixings.",
               "Squareness where the settings permit no difference of diagonals, and joints of an opening that was not "
               "surveyed where they give no least joint or the panel is no infill."},
    .role = {}};

namespace {

/// The size of a panel as measured in the workshop, in m; none where it was not.
struct ActualSize {
  std::optional<double> width_m;
  std::optional<double> height_m;
};

/// A joint clearance in m that lies outside its limits.
struct JointOutside {
  double clearance_m = 0.0;
  double limit_m = 0.0;
  bool too_narrow = true;  ///< else too wide
  std::string place;       ///< `at each side`, `at the head`
};

constexpr const char* kSet = "Panel_AsBuilt";
constexpr double kSameTolerance_m = 1e-9;  // the export's unit is converted, which leaves a few units of the last digit

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

/// `symbol` with its formula behind it.
struct Derived {
  const char* symbol;
  const char* formula;
};

void add_joint(FindingBuilder& finding, std::vector<Joint>& joints, const std::string& place, double clearance_m,
               const Derived& derived) {
  const double rounded_m = rounded_to_millionth(clearance_m);
  finding.step("joint clearance " + place, derived.symbol, rounded_m, "m", derived.formula);
  joints.push_back({place, rounded_m});
}

/// How far outside the limits, in m; 0 or less when the joint keeps them.
double excess_m(const Joint& joint, const JointLimits& limits) {
  const double below_m = limits.least_m - joint.clearance_m;
  return limits.largest_m ? std::max(below_m, joint.clearance_m - *limits.largest_m) : below_m;
}

/// Compares the actual size with `Panel_AsBuilt.FrameOpeningWidth` and `FrameOpeningHeight`, as surveyed: half of what
/// the panel leaves of the width is the joint at each side, all that it leaves of the height the joint at the head,
/// for the panel stands on the sill of its opening. Limits are settings `quantities.least_joint_m` and, where given,
/// `quantities.largest_joint_m`; without the former a surveyed opening is noted as missing it. Adds inputs and steps.
/// An infill panel without survey is noted. Gives the joint furthest outside its limits, none when all hold.
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
  const auto opening_width_m = finding.positive("width of the opening in the frame, surveyed", "B", "m", width,
                                                "Panel_AsBuilt.FrameOpeningWidth is missing beside the height");
  const auto opening_height_m = finding.positive("height of the opening in the frame, surveyed", "H", "m", height,
                                                 "Panel_AsBuilt.FrameOpeningHeight is missing beside the width");
  const JointLimits limits = read_limits(finding, settings);
  if (finding.incomplete() || !actual.width_m || !actual.height_m) return std::nullopt;

  std::vector<Joint> joints;
  add_joint(finding, joints, "at each side", (*opening_width_m - *actual.width_m) / 2.0,
            {"j_s", "j_s = (B − b_a) / 2"});
  add_joint(finding, joints, "at the head", *opening_height_m - *actual.height_m, {"j_h", "j_h = H − h_a"});
  const Joint& worst = excess_m(joints[1], limits) > excess_m(joints[0], limits) ? joints[1] : joints[0];
  if (excess_m(worst, limits) <= 0.0) return std::nullopt;
  const bool too_narrow = worst.clearance_m < limits.least_m;
  return JointOutside{worst.clearance_m, too_narrow ? limits.least_m : *limits.largest_m, too_narrow, worst.place};
}

struct Measured {
  std::optional<double> actual_m;
  double deviation_m = 0.0;  ///< its size; 0 when a size is missing
};

/// Records target and actual size; `symbol` is that of the target.
Measured measured(FindingBuilder& finding, const Panel& panel, const std::string& side, const std::string& symbol,
                  const Sourced<double>& target_m) {
  std::string word = side;
  word.front() = static_cast<char>(word.front() - 'A' + 'a');
  const auto target = finding.positive("target size, " + word, symbol, "m", target_m, "the panel has no " + word);
  const auto actual = finding.positive("actual size, " + word, symbol + "_a", "m", panel.properties.number(kSet, side),
                                       "Panel_AsBuilt." + side + " is missing: measure the panel and state it");
  if (!target || !actual) return {actual, 0.0};
  const double deviation = rounded_to_millionth(*actual - *target);
  const std::string difference = "Δ" + symbol;
  finding.step("deviation, " + word, difference, deviation, "m", difference + " = " + symbol + "_a − " + symbol);
  return {actual, std::abs(deviation)};
}

struct Squareness {
  double difference_m = 0.0;
  double permitted_m = 0.0;
  double from_target_m = 0.0;  ///< of the diagonal further from that of the target size
  double permitted_from_target_m = 0.0;
};

/// What the permitted deviations of the sides and of squareness together permit of one diagonal: it grows by b/D of
/// what b grows and h/D of what h does, and by half of the difference of both.
double permitted_of_diagonal_m(const Panel& panel, double diagonal_m, double tolerance_m, double difference_m) {
  return tolerance_m * (panel.width_m.value + panel.height_m.value) / diagonal_m + difference_m / 2.0;
}

/// Differences of the diagonals from each other and from that of the target size, when they were measured; notes what
/// is missing beside one of them. `tolerance_m` is that of the sides.
std::optional<Squareness> squareness(FindingBuilder& finding, const Panel& panel, const Settings& settings,
                                     std::optional<double> tolerance_m) {
  const auto first = panel.properties.number(kSet, "Diagonal1");
  const auto second = panel.properties.number(kSet, "Diagonal2");
  if (!first && !second) return std::nullopt;
  const auto first_m = finding.positive("first diagonal, actual size", "D_1", "m", first,
                                        "Panel_AsBuilt.Diagonal1 is missing beside the other diagonal");
  const auto second_m = finding.positive("second diagonal, actual size", "D_2", "m", second,
                                         "Panel_AsBuilt.Diagonal2 is missing beside the other diagonal");
  const auto permitted_m = finding.positive(
      "permitted difference of the diagonals", "ΔD_max", "m", settings.number("quantities.squareness_tolerance_m"),
      "setting 'quantities.squareness_tolerance_m' is missing: the difference of diagonals that the project permits");
  if (!first_m || !second_m || !permitted_m) return std::nullopt;
  const double difference_m = rounded_to_millionth(std::abs(*first_m - *second_m));
  finding.step("out of square: difference of the diagonals", "ΔD", difference_m, "m", "ΔD = |D_1 − D_2|");
  const double diagonal_m = std::hypot(panel.width_m.value, panel.height_m.value);
  if (!tolerance_m || !(diagonal_m > 0.0)) return std::nullopt;
  const double from_target_m =
      rounded_to_millionth(std::max(std::abs(*first_m - diagonal_m), std::abs(*second_m - diagonal_m)));
  const double permitted_from_target_m =
      rounded_to_millionth(permitted_of_diagonal_m(panel, diagonal_m, *tolerance_m, *permitted_m));
  finding.step("diagonal of the target size", "D", diagonal_m, "m", "D = √(b² + h²)");
  finding.step("diagonal furthest from it", "δD", from_target_m, "m", "δD = max(|D_1 − D|; |D_2 − D|)");
  finding.step("permitted of that by the deviations of the sides and of the diagonals", "δD_max",
               permitted_from_target_m, "m", "δD_max = Δ_max · (b + h) / D + ΔD_max / 2");
  return Squareness{difference_m, *permitted_m, from_target_m, permitted_from_target_m};
}

bool has(const Panel& panel, const char* name) {
  return panel.properties.number(kSet, name).has_value();
}

/// What the settings ask for and nobody measured.
std::vector<std::string> not_measured(const Panel& panel, const Settings& settings) {
  std::vector<std::string> lacking;
  if (settings.number("quantities.squareness_tolerance_m") && !has(panel, "Diagonal1") && !has(panel, "Diagonal2")) {
    lacking.emplace_back(
        "Panel_AsBuilt.Diagonal1 and Diagonal2 are missing: setting 'quantities.squareness_tolerance_m' asks for them");
  }
  if (settings.number("quantities.least_joint_m") && is_infill(panel) && !has(panel, "FrameOpeningWidth") &&
      !has(panel, "FrameOpeningHeight")) {
    lacking.emplace_back(
        "Panel_AsBuilt.FrameOpeningWidth and FrameOpeningHeight are missing: setting 'quantities.least_joint_m' asks "
        "for "
        "the survey of an infill panel's opening");
  }
  return lacking;
}

std::string millimetres_of(double value_m) {
  return fixed_text(units::millimetres_from_metres(value_m), 1) + " mm";
}

/// The permitted deviation in m: what the export states of the panel, else the setting; noted where neither is there
/// or they differ.
std::optional<double> read_tolerance(FindingBuilder& finding, const Panel& panel, const Settings& settings) {
  const auto of_panel = panel.properties.number("Pset_Tolerance", "OverallTolerance");
  const auto of_project = settings.number("quantities.size_tolerance_m");
  if (of_panel && of_project && std::abs(of_panel->value - of_project->value) > kSameTolerance_m) {
    finding.missing("Pset_Tolerance.OverallTolerance of the panel is " + millimetres_of(of_panel->value) +
                    " and setting 'quantities.size_tolerance_m' " + millimetres_of(of_project->value) +
                    ": correct one of them");
  }
  return finding.positive("permitted deviation, either way", "Δ_max", "m", of_panel ? of_panel : of_project,
                          "setting 'quantities.size_tolerance_m' and Pset_Tolerance.OverallTolerance are missing: the "
                          "deviation that the project permits");
}

/// When to act on a size that does not hold: what is to be done of a panel in the workshop is too late of one that
/// stands in the building.
std::string by_now(const Panel& panel) {
  const auto installed = panel.properties.text("Panel_Install", "Date");
  if (!installed || installed->value.empty()) return "before it leaves the workshop";
  return "where it stands, for it was installed on " + installed->value;
}

Finding judge_joint(FindingBuilder& finding, const JointOutside& joint, const Panel& panel) {
  const std::string size = "the joint " + joint.place + " is " + millimetres_of(joint.clearance_m);
  if (joint.too_narrow) {
    return finding.judge(joint.clearance_m, "m", Relation::at_least, joint.limit_m,
                         size +
                             ", too narrow for its seal, though the panel is in tolerance; survey the opening "
                             "again and agree a mend of the panel " +
                             by_now(panel));
  }
  return finding.judge(joint.clearance_m, "m", Relation::at_most, joint.limit_m,
                       size +
                           ", too wide for its seal, though the panel is in tolerance; agree a packer or another "
                           "seal of the panel " +
                           by_now(panel));
}

}  // namespace

Finding as_built_size(const Panel& panel, const Settings& settings) {
  FindingBuilder finding(kAsBuiltSizeCheck, panel.global_id);
  finding.decimals(4);
  const auto tolerance_m = read_tolerance(finding, panel, settings);
  const Measured width = measured(finding, panel, "Width", "b", panel.width_m);
  const Measured height = measured(finding, panel, "Height", "h", panel.height_m);
  const Measured thickness = measured(finding, panel, "Thickness", "t", panel.thickness_m);
  const auto square = squareness(finding, panel, settings, tolerance_m);
  const auto joint = joint_outside_limits(finding, panel, settings, {width.actual_m, height.actual_m});
  if (finding.incomplete()) return finding.not_assessed();

  const double largest_m = std::max({width.deviation_m, height.deviation_m, thickness.deviation_m});
  if (largest_m <= *tolerance_m) {
    // The finding judges what does not hold; the steps keep the rest.
    if (square && square->difference_m > square->permitted_m) {
      return finding.judge(square->difference_m, "m", Relation::at_most, square->permitted_m,
                           "the panel is out of square, though its sides are in tolerance; check that it fits its "
                           "place " +
                               by_now(panel));
    }
    if (square && square->from_target_m > square->permitted_from_target_m) {
      return finding.judge(square->from_target_m, "m", Relation::at_most, square->permitted_from_target_m,
                           "a diagonal (Panel_AsBuilt.Diagonal1 and Diagonal2) is not that of the target width and "
                           "height, though the sides are in tolerance: measure again, for one of these is wrong");
    }
    if (joint) return judge_joint(finding, *joint, panel);
    const std::vector<std::string> lacking = not_measured(panel, settings);
    if (!lacking.empty()) return finding.needs_evidence(joined(lacking, "; "));
  }
  return finding.judge(largest_m, "m", Relation::at_most, *tolerance_m,
                       "the panel is out of tolerance; check that it fits its place " + by_now(panel));
}

}  // namespace panel_dossier::quantities
