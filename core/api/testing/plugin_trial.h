// Tries a plugin on a project and tells where it breaks what every plugin promises.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"

namespace panel_dossier::testing {

struct TrialOptions {
  /// Inputs are taken away and spoilt on one panel of each type, of so many types.
  std::size_t types = 3;
  std::size_t threads = 4;
  /// Demand of figures what is demanded of a pass: that they are not given without, or with a spoilt, input.
  bool figures_too = false;
  /// Also spoil numbers by a factor of 1000. Off because the intake refuses implausible numbers before any check.
  bool thousandfold = false;
  /// Count declared inputs that no finding cites, the optional ones aside, as faults. For a project that shows all.
  bool uncited_inputs = false;
  /// Properties (`Pset.Property`) and settings (`*` for an index or an entry) whose number may have either sign.
  std::vector<std::string> either_sign = {};
  /// Properties and settings whose text may be any: names of documents, makers, places.
  std::vector<std::string> free_text = {};
};

struct TrialReport {
  std::vector<std::string> faults;
  // What was tried, so that a test can demand that something was.
  std::size_t findings = 0;  ///< of the first run
  std::size_t formulas = 0;
  std::size_t inputs = 0;     ///< properties and settings cited
  std::size_t removals = 0;   ///< findings looked at after an input of theirs was taken away
  std::size_t spoilings = 0;  ///< findings looked at after an input of theirs was spoilt
};

/// Runs the plugin and gives as faults:
/// - a breach of the contract by the declarations or by what any call gave, and whatever is thrown;
/// - findings that are not the same again, with the panels in the opposite order, or from several threads at once;
/// - a finding that passes although a property or setting that it cites, and that its declaration does not call
///   optional, is absent (of a list of numbers or texts: the whole list); and one that does not pass but gives a reason
///   that does not name it;
/// - a finding that passes although such a number is NaN or has the opposite sign, or such a text is no known word;
/// - an input that the check's declaration does not name;
/// - a changed locale, current folder, environment, rounding mode or signal handler;
/// - a formula that does not have the form or does not give its number (see formula.h).
TrialReport try_plugin(const Plugin& plugin, const Project& project, const Settings& settings,
                       const TrialOptions& options = {});

}  // namespace panel_dossier::testing
