// The document security store (ISO 32000-2:2020, 12.8.4.3; ETSI EN 319 142-1, baseline LT): certificates, revocation
// lists and OCSP responses kept in the dossier itself, so that its signatures can be judged when nobody gives them out
// any more. Private to the seal stage but for `keep_proofs` and `read_proof_files`.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "core/seal/revision/increment.h"
#include "core/seal/trust/revocation.h"

class QPDF;

namespace panel_dossier {

/// As DER.
struct KeptProofs {
  std::vector<std::string> certificates;
  RevocationData revocation;

  bool is_empty() const { return certificates.empty() && revocation.lists.empty() && revocation.responses.empty(); }
};

/// Of PEM files with certificates and revocation lists, and DER files of one certificate, list or OCSP response; or of
/// folders of them. Throws std::runtime_error naming a file that holds none.
KeptProofs read_proof_files(const std::vector<std::filesystem::path>& files);

/// What the document security store of the revision holds.
KeptProofs read_proofs(QPDF& pdf);

/// The objects of an update to `pdf` that adds the proofs to what its store holds.
ObjectTexts proof_objects(QPDF& pdf, const RevisionEnd& before, const KeptProofs& added);

/// The dossier with the proofs kept in it. Throws std::runtime_error when the bytes are no dossier that this program
/// signed.
std::string keep_proofs(std::string_view dossier, const KeptProofs& added);

}  // namespace panel_dossier
