// Which certificates may sign a dossier: one set of rules, by which `build` refuses a key and `verify` a signature.
#pragma once

#include <string>
#include <vector>

struct x509_st;

namespace panel_dossier {

/// Why a document may not be signed with the certificate's key, or empty when it may: RSA of less than 2048 bits, a
/// curve of less than 256 bits, another kind of key, a key usage or an extended key usage without signing documents,
/// or an issuer's signature over a weak digest (MD5, SHA-1). Begins with `its …` or `the certificate of …`.
std::string signing_fault(x509_st* certificate);

/// The same for the issuers that travel with a signature, as DER: the digest of their issuers' signatures. A
/// self-signed one proves nothing by its signature and is passed over.
std::string issuer_fault(const std::vector<std::string>& issuers);

}  // namespace panel_dossier
