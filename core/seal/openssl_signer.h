// A signer over a private key held in memory. Private to the seal stage.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "core/seal/signer.h"

struct evp_pkey_st;

namespace panel_dossier {

/// Takes over one reference to the key. `certificates` are DER, the signer's own first. Throws std::runtime_error when
/// the key is neither RSA of at least 2048 bits nor elliptic curve.
std::unique_ptr<Signer> make_openssl_signer(evp_pkey_st* key, std::vector<std::string> certificates);

}  // namespace panel_dossier
