// What was added to a dossier after its first signature. Private to the seal stage.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/seal/revision/approval.h"
#include "core/seal/signature_field.h"

namespace panel_dossier {

/// One update that holds nothing but what this program adds.
struct Addition {
  std::optional<Approval> approval;  ///< none: it keeps proofs, or is a time stamp
  bool is_time_stamp = false;
  SignatureFacts facts;  ///< of the approval's signature, or of the time stamp
  std::string words;     ///< what it adds
};

/// The update by which `after` goes on from `before`. It is written again from what it says, and has to come out the
/// same, octet by octet. Throws std::runtime_error with the objects that it changes when it does not: somebody else
/// added it.
Addition read_addition(std::string_view before, std::string_view after);

}  // namespace panel_dossier
