// A signing key in a PKCS#11 token (a smart card, a USB token, a security module), which never leaves it. Private to
// the seal stage.
#pragma once

#include <openssl/evp.h>

#include <filesystem>
#include <string>

#include "core/seal/certificate.h"

namespace panel_dossier {

struct TokenKey {
  Handle<EVP_PKEY, EVP_PKEY_free> key;
  Certificate certificate;
};

/// The key and the certificate of that URI (RFC 7512), for example `pkcs11:token=practice;object=signing`. `module` is
/// the PKCS#11 library of the token's maker. Needs OpenSSL's engine `pkcs11` (Debian: libengine-pkcs11-openssl). Throws
/// std::runtime_error saying what is missing: engine, module, token, key, certificate, or the right PIN.
TokenKey load_token_key(const std::string& uri, const std::filesystem::path& module, const std::string& pin);

}  // namespace panel_dossier
