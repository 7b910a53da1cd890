// Whether a signature is over the bytes that it seems to be over, and fit to sign. Private to the seal stage.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/seal/cms_form.h"
#include "core/seal/signature_field.h"
#include "core/seal/verification/step_list.h"

namespace panel_dossier {

/// Words for that the ranges of a signature or time stamp cover all of `revision` but itself. Throws std::runtime_error
/// when they do not.
std::string whole_file_covered(std::string_view revision, const SignatureFacts& facts);

/// The CMS in the gap, whose hexadecimal digits and padding may have one form only. Throws std::runtime_error
/// otherwise.
std::string cms_in_gap(std::string_view gap);

/// Adds a step each for: coverage of all of `revision`, form of the signature, digest, signing certificate, signature
/// value, fitness of key and certificate, validity at the claimed time. `whose` begins each, for a signature after the
/// first: `signature 2, checker: `. Returns the parts of the signature; none when it cannot be read.
std::optional<CmsParts> add_signature_steps(StepList& steps, std::string_view revision, const SignatureFacts& facts,
                                            const std::string& whose = {});

}  // namespace panel_dossier
