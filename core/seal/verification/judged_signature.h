// The questions about a signature that integrity does not answer: whose, when, revoked. Private to the seal stage.
#pragma once

#include <string>
#include <vector>

#include "core/seal/cms_form.h"
#include "core/seal/revision/kept_proofs.h"
#include "core/seal/time/time_stamp.h"
#include "core/seal/trust/trust_store.h"
#include "core/seal/verify.h"

namespace panel_dossier {

/// What a document time stamp proves that leads to somebody whom the reader named.
struct ProvenState {
  std::string time_utc;  ///< everything before the stamp existed then
  KeptProofs proofs;     ///< that stood in the dossier
};

/// Fills in time, authority and trust of a document time stamp whose token holds, with what the dossier itself keeps
/// for that.
void judge_document_stamp(VerifiedTimeStamp& judged, const TimeStamp& stamp, const TrustStore& trust,
                          const KeptProofs& proofs);

/// Fills in signer, form, times and judgements of a signature whose CMS has the parts, with what the dossier itself
/// keeps for that. `proven` is null where no trusted document time stamp stands behind the signature. Throws
/// std::runtime_error when its certificate cannot be read.
void judge_signature(VerifiedSignature& signature, const CmsParts& parts, const TrustStore& trust,
                     const KeptProofs& proofs, const ProvenState* proven);

}  // namespace panel_dossier
