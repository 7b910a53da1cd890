// The steps of a verification, collected. Private to the seal stage.
#pragma once

#include <exception>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/seal/verify.h"

namespace panel_dossier {

/// Throws std::runtime_error with `otherwise` unless it `holds`, which fails the step that asked.
inline void require_step(bool holds, const std::string& otherwise) {
  if (!holds) throw std::runtime_error(otherwise);
}

/// Collects verification steps; whatever goes wrong in one becomes its detail.
class StepList {
 public:
  /// Runs `check`, which returns what it found or throws std::exception with what does not hold. Returns whether it
  /// holds.
  template <typename Check>
  bool run(std::string what, Check check) {
    VerificationStep step{std::move(what), false, {}};
    try {
      step.detail = check();
      step.holds = true;
    } catch (const std::exception& error) {
      step.detail = error.what();
    }
    steps_.push_back(std::move(step));
    return steps_.back().holds;
  }

  std::vector<VerificationStep> take() { return std::move(steps_); }

 private:
  std::vector<VerificationStep> steps_;
};

}  // namespace panel_dossier
