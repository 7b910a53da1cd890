// What a test asks of findings.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/api/finding/finding.h"

namespace panel_dossier::testing {

/// The finding with this id; throws std::out_of_range when there is none.
inline const Finding& finding_of(const std::vector<Finding>& findings, std::string_view check) {
  for (const Finding& finding : findings) {
    if (finding.check == check) return finding;
  }
  throw std::out_of_range("no finding '" + std::string(check) + "'");
}

/// The value of a finding that must be a number.
inline double number_of(const Finding& finding) {
  return std::get<double>(finding.value);
}

/// The number of the first step with this symbol; throws std::out_of_range when there is none.
inline double step_of(const Finding& finding, std::string_view symbol) {
  for (const Step& step : finding.steps) {
    if (step.symbol == symbol) return std::get<double>(step.value);
  }
  throw std::out_of_range("no step " + std::string(symbol));
}

}  // namespace panel_dossier::testing
