// Cases of a check as a table: what is changed of a sound project, and what the check must then say.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"
#include "core/api/testing/change.h"

namespace panel_dossier::testing {

struct CheckCase {
  std::string label = {};                    ///< what the case shows, once in the table
  Change change = {};                        ///< empty: the sound project as it is
  std::optional<Verdict> verdict = {};       ///< none: the check does not apply
  Value value = {};                          ///< of the finding; empty when it is not looked at
  double tolerance = 0.0;                    ///< absolute, in the unit of the value; 0: 1e-9 of the value
  std::string why_tolerance = {};            ///< where the tolerance is not 0: why the value is known no better
  std::string reason = {};                   ///< the exact words; empty for a pass and an information
  std::vector<std::string> also_moves = {};  ///< other checks whose finding may change with it; `*` for any
  bool unchanged = false;                    ///< the finding must be that of the sound project in every member
};

/// The cases of one check, for example
///   const RegisterCases kCases{
///       {.check = "sound.rating",
///        .sound_project = wall_project,
///        .sound_settings = wall_settings,
///        .cases = {{.label = "as made", .verdict = Verdict::pass, .value = 52.0},
///                  {.label = "a lighter board",
///                   .change = set_of_material(kBoard, "Pset_MaterialCommon.MassDensity", 400.0),
///                   .verdict = Verdict::fail,
///                   .value = 49.0,
///                   .reason = "the wall is too light; …"}}}};
struct CheckCases {
  std::string check = {};  ///< id
  std::function<Project()> sound_project = {};
  std::function<Settings()> sound_settings = {};
  std::vector<CheckCase> cases = {};
  /// The project's finding of a check that makes findings of panels too. A check of the project alone needs no word.
  bool of_project = false;
  /// Look at the other findings of panels and project both; else only at those of the first panel, or of the project
  /// where the cases are of the project's finding.
  bool whole_run = false;
};

/// Runs every case and gives what is wrong: another verdict, value or reason than expected; a change that changes
/// nothing, or something where `unchanged` is said; the verdict, value, limit or reason of another check moved without
/// leave; a breach of the plugin contract; a formula of the finding that does not hold; a label that stands twice; two
/// cases that expect and find the same. The finding is that of the first panel unless the cases are of the project's.
std::vector<std::string> case_faults(const Plugin& plugin, const CheckCases& cases);

/// The declared checks for which something is lacking, one text each: cases at all; a pass and a fail of a limit; a
/// pass or information of any other check but a figure, and one case that is neither; an information of a figure; any
/// case of the project's finding of a check of panels and project. Also cases of checks that are not declared.
std::vector<std::string> checks_without_cases(const Plugin& plugin, const std::vector<CheckCases>& all);

/// Cases that stand in many files of a test program and are run by one test, which asks for `registered_cases()`. Use
/// as a constant at namespace scope.
class RegisterCases {
 public:
  explicit RegisterCases(CheckCases cases);
};

/// In no order that a test may rely on.
const std::vector<CheckCases>& registered_cases();

}  // namespace panel_dossier::testing
