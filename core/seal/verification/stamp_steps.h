// Whether a document time stamp is over the bytes that it seems to be over. Private to the seal stage.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/seal/signature_field.h"
#include "core/seal/time/time_stamp.h"
#include "core/seal/verification/step_list.h"

namespace panel_dossier {

/// Adds a step each for coverage of all of `revision` and for the token; `whose` begins each: `time stamp 1: `. Returns
/// what the token says; none when it does not hold. Whom its authority leads to is not asked.
std::optional<TimeStamp> add_stamp_steps(StepList& steps, std::string_view revision, const SignatureFacts& facts,
                                         const std::string& whose);

}  // namespace panel_dossier
