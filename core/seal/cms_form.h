// The one form a dossier's CMS signature has (RFC 5652 (2009), ETSI EN 319 122-1, ETSI EN 319 142-1 baseline B).
//
// Composed here from parts that OpenSSL encodes, for two reasons. OpenSSL 3.0 adds a signing-time attribute to every
// signer, which PAdES forbids. And a CMS has octets that no signature covers (versions, algorithm lists, length forms);
// composing the parts again and comparing octets is what shows that none of them was changed.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/intake/document/sha256.h"

namespace panel_dossier {

/// All in DER.
struct CmsParts {
  std::vector<std::string> certificates;  ///< the signer's first, then its issuers
  std::string signed_attributes;          ///< the SET OF Attribute that is signed, tag and length included
  std::string signature;                  ///< the bare signature value
  std::string time_stamp = {};            ///< token over the signature value (baseline T); empty: none
};

/// The attribute with the SHA-256 digest of the content.
std::string message_digest_attribute(const Digest& content);

/// The attribute signing-certificate-v2 (RFC 5035 (2007)), which names all of the certificates. Throws
/// std::runtime_error when one cannot be read.
std::string signing_certificate_attribute(const std::vector<std::string>& certificates);

/// The SET OF attributes that is signed: content-type and the two above. Throws as they do.
std::string signed_attributes(const Digest& content, const std::vector<std::string>& certificates);

/// The whole CMS. Throws std::runtime_error when the signer's key is neither RSA nor elliptic curve.
std::string compose_cms(const CmsParts& parts);

/// The parts of a CMS with one signer. Throws std::runtime_error when the octets are no such CMS.
CmsParts parse_cms(std::string_view cms);

/// Number of octets at the start of `octets` that its first DER element takes; 0 when there is no element.
std::size_t der_element_size(std::string_view octets);

}  // namespace panel_dossier
