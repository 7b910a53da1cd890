// The steps of verification that concern the signature. Private to the seal stage.
#pragma once

#include <string_view>

#include "core/seal/signed_pdf.h"
#include "core/seal/step_list.h"

namespace panel_dossier {

/// Adds a step each for: coverage of the whole file, form of the signature, digest, signing certificate, signature
/// value, certificate. Returns whether the certificate is another than the demonstration key's; false when it cannot
/// be read.
bool add_signature_steps(StepList& steps, std::string_view bytes, const SignatureFacts& facts);

}  // namespace panel_dossier
