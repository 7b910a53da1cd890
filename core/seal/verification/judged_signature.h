// The questions about a signature that integrity does not answer: whose, when, revoked. Private to the seal stage.
#pragma once

#include <string>
#include <vector>

#include "core/seal/cms_form.h"
#include "core/seal/revision/kept_proofs.h"
#include "core/seal/trust/trust_store.h"
#include "core/seal/verify.h"

namespace panel_dossier {

/// Fills in signer, form, times and judgements of a signature whose CMS has the parts, with what the dossier itself
/// keeps for that. Throws std::runtime_error when its certificate cannot be read.
void judge_signature(VerifiedSignature& signature, const CmsParts& parts, const TrustStore& trust,
                     const KeptProofs& proofs);

}  // namespace panel_dossier
