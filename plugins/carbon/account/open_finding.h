// A carbon finding under way: what is missing in the model and what is missing in the evidence, kept apart.
#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "core/api/finding/finding_builder.h"

namespace panel_dossier::carbon {

/// As FindingBuilder, which it holds. One for each finding; not thread-safe.
class OpenFinding {
 public:
  /// `panel` is the GlobalId, empty for a finding of the project.
  OpenFinding(const CheckDeclaration& check, std::string panel) : builder_(check, std::move(panel)) {}

  FindingBuilder& builder() { return builder_; }

  /// Notes that a declaration or document is absent, out of date or does not fit. The same words are noted once.
  void evidence_gap(std::string what) {
    if (std::find(gaps_.begin(), gaps_.end(), what) == gaps_.end()) gaps_.push_back(std::move(what));
  }

  /// As `FindingBuilder::missing`, for what every material would note again: the same words are noted once.
  void missing_once(std::string what) {
    if (std::find(noted_.begin(), noted_.end(), what) != noted_.end()) return;
    noted_.push_back(what);
    builder_.missing(std::move(what));
  }

  /// The value of an earlier finding; where it has none, its reason becomes one of this finding's of the same kind.
  std::optional<double> value_of(const Finding& earlier) {
    if (const double* value = std::get_if<double>(&earlier.value)) return *value;
    const std::string what = earlier.check + " has no value: " + earlier.reason;
    if (earlier.verdict == Verdict::evidence_needed) {
      evidence_gap(what);
    } else {
      builder_.missing(what);
    }
    return std::nullopt;
  }

  /// How many gaps of evidence are noted: unchanged over a material whose declaration may be used.
  std::size_t evidence_gaps() const { return gaps_.size(); }

  bool complete() const { return gaps_.empty() && !builder_.incomplete(); }

  /// For a finding that is not complete: `not assessed` when the model or the settings lack something, else
  /// `evidence needed`. The reason lists all of it.
  Finding close_incomplete() {
    std::string gaps;
    for (const std::string& gap : gaps_) gaps += (gaps.empty() ? "" : "; ") + gap;
    return builder_.incomplete() ? builder_.not_assessed(gaps) : builder_.needs_evidence(gaps);
  }

 private:
  FindingBuilder builder_;
  std::vector<std::string> gaps_;
  std::vector<std::string> noted_;  ///< by `missing_once`
};

}  // namespace panel_dossier::carbon
