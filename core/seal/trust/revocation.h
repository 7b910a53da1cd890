// Whether the certificates of a path were revoked (RFC 5280 (2008), RFC 6960 (2013)). Private to the seal stage.
#pragma once

#include <ctime>
#include <string>
#include <vector>

#include "core/seal/verify.h"

namespace panel_dossier {

/// As DER, from the dossier itself or from the reader. What cannot be read or is of another authority is passed over.
struct RevocationData {
  std::vector<std::string> lists;      ///< CRLs
  std::vector<std::string> responses;  ///< of OCSP, whole
};

/// The moment that counts for a signature.
struct Moment {
  std::time_t time = 0;
  bool proven = false;  ///< by a time stamp: a revocation after it does not touch what was signed before
};

/// Judges every certificate of the path but its anchor: `fails` for one that was revoked, `open` for one of which no
/// current list or response of its issuer says anything. An entry counts also where its list or response has run out or
/// is of a part of the certificates, unless it is a hold, which can have been lifted since.
Judgement revocation_of(const std::vector<std::string>& path, const RevocationData& data, const Moment& moment);

}  // namespace panel_dossier
