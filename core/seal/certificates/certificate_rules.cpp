#include "core/seal/certificates/certificate_rules.h"

#include <openssl/asn1.h>
#include <openssl/evp.h>
#include <openssl/objects.h>
#include <openssl/x509v3.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <string_view>

#include "core/seal/certificate.h"

namespace panel_dossier {

namespace {

std::string key_fault(EVP_PKEY* key) {
  constexpr int kLeastRsaBits = 2048;   // SOG-IS and NIST SP 800-131A floor for new signatures; from memory
  constexpr int kLeastCurveBits = 256;  // SOG-IS agreed mechanisms; from memory
  const int type = key == nullptr ? EVP_PKEY_NONE : EVP_PKEY_get_base_id(key);
  if (type != EVP_PKEY_RSA && type != EVP_PKEY_EC) {
    return "its key is neither an RSA nor an elliptic curve key; use one of these";
  }
  const int bits = EVP_PKEY_get_bits(key);
  if (type == EVP_PKEY_RSA && bits < kLeastRsaBits) {
    return "its RSA key has " + std::to_string(bits) + " bits; use one of at least 2048";
  }
  if (type == EVP_PKEY_EC && bits < kLeastCurveBits) {
    return "its elliptic curve has " + std::to_string(bits) + " bits; use one of at least 256";
  }
  return {};
}

std::string quoted_subject(x509_st* certificate) {
  return "the certificate of '" + subject_text(certificate) + "'";
}

std::string oid_text(const ASN1_OBJECT* object) {
  constexpr int kNumbersOnly = 1;
  std::array<char, 128> text{};
  const int size = OBJ_obj2txt(text.data(), static_cast<int>(text.size()), object, kNumbersOnly);
  return size <= 0 ? std::string() : std::string(text.data());
}

/// A certificate for servers, code, time stamps or OCSP may not sign documents. Those that may: any purpose (RFC 5280
/// (2008), 4.2.1.12), e-mail protection, which is what certificates for persons carry, document signing (RFC 9336
/// (2022)), and the two of older practice (from memory).
bool signs_documents(std::string_view purpose) {
  constexpr std::array<std::string_view, 5> kPurposes{"2.5.29.37.0", "1.3.6.1.5.5.7.3.4", "1.3.6.1.5.5.7.3.36",
                                                      "1.2.840.113583.1.1.5", "1.3.6.1.4.1.311.10.3.12"};
  return std::find(kPurposes.begin(), kPurposes.end(), purpose) != kPurposes.end();
}

std::string purpose_fault(x509_st* certificate) {
  using Purposes = Handle<EXTENDED_KEY_USAGE, EXTENDED_KEY_USAGE_free>;
  int outcome = 0;
  const Purposes purposes(
      static_cast<EXTENDED_KEY_USAGE*>(X509_get_ext_d2i(certificate, NID_ext_key_usage, &outcome, nullptr)));
  constexpr int kAbsent = -1;
  if (!purposes) {
    return outcome == kAbsent ? std::string() : quoted_subject(certificate) + " has a broken extended key usage";
  }
  std::string named;
  for (int i = 0; i < sk_ASN1_OBJECT_num(purposes.get()); ++i) {
    const std::string purpose = oid_text(sk_ASN1_OBJECT_value(purposes.get(), i));
    if (signs_documents(purpose)) return {};
    named += (named.empty() ? "" : ", ") + purpose;
  }
  return quoted_subject(certificate) + " is for another purpose than signing documents (extended key usage " + named +
         ")";
}

std::string digest_fault(x509_st* certificate) {
  constexpr int kLeastBits = 112;  // of security; SHA-1 and MD5 give less
  int digest = NID_undef;
  int bits = 0;
  if (X509_get_signature_info(certificate, &digest, nullptr, &bits, nullptr) == 1 && bits >= kLeastBits) return {};
  const char* name = OBJ_nid2ln(digest);
  return quoted_subject(certificate) + " is itself signed with a weak digest (" +
         std::string(name == nullptr ? "unknown" : name) + "); have it issued anew";
}

}  // namespace

std::string signing_fault(x509_st* certificate) {
  if (std::string fault = key_fault(X509_get0_pubkey(certificate)); !fault.empty()) return fault;
  const std::uint32_t usage = X509_get_key_usage(certificate);
  if ((usage & (KU_DIGITAL_SIGNATURE | KU_NON_REPUDIATION)) == 0) {
    return quoted_subject(certificate) + " is not meant for signing documents (key usage)";
  }
  if (std::string fault = purpose_fault(certificate); !fault.empty()) return fault;
  return digest_fault(certificate);
}

std::string issuer_fault(const std::vector<std::string>& issuers) {
  for (const std::string& octets : issuers) {
    const Certificate issuer = read_certificate(octets);
    if (X509_self_signed(issuer.get(), 0) == 1) continue;
    if (std::string fault = digest_fault(issuer.get()); !fault.empty()) return fault;
  }
  return {};
}

}  // namespace panel_dossier
