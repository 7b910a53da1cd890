// Where two findings differ.
#pragma once

#include <string>

#include "core/api/finding/finding.h"
#include "core/api/plugin.h"

namespace panel_dossier::testing {

/// The first member in which they differ, with both contents where they are short: `verdict: 'pass' and 'fail'`,
/// `steps[2].value: 1.5 and 2`; empty when every member is the same to the last bit, origins and drawings included.
std::string finding_difference(const Finding& one, const Finding& other);

/// As `finding_difference`, for all that one call gave, in its order: `sound.reduction_index: verdict: …`.
std::string outcome_difference(const CheckOutcome& one, const CheckOutcome& other);

}  // namespace panel_dossier::testing
