#include "core/seal/cms_form.h"

#include <openssl/asn1.h>
#include <openssl/cms.h>
#include <openssl/ess.h>
#include <openssl/evp.h>
#include <openssl/objects.h>
#include <openssl/x509.h>

#include <algorithm>
#include <initializer_list>

#include "core/intake/document/sha256.h"
#include "core/seal/certificate.h"
#include "core/seal/certificates/certificate_stack.h"

namespace panel_dossier {

namespace {

constexpr unsigned char kInteger = 0x02;
constexpr unsigned char kOctetString = 0x04;
constexpr unsigned char kSequence = 0x30;
constexpr unsigned char kSet = 0x31;
constexpr unsigned char kContext0 = 0xa0;
constexpr unsigned char kContext1 = 0xa1;

std::string joined(std::initializer_list<std::string_view> parts) {
  std::string text;
  for (const auto part : parts) text += part;
  return text;
}

std::string der(unsigned char tag, std::string_view content) {
  std::string length;
  if (content.size() < 0x80) {
    length = static_cast<char>(content.size());
  } else {
    for (std::size_t rest = content.size(); rest != 0; rest >>= 8U) {
      length.insert(length.begin(), static_cast<char>(rest & 0xffU));
    }
    length.insert(length.begin(), static_cast<char>(0x80U | length.size()));
  }
  return joined({{reinterpret_cast<const char*>(&tag), 1}, length, content});
}

std::string object_id(int nid) {
  return encoded(OBJ_nid2obj(nid), i2d_ASN1_OBJECT);
}

std::string attribute(int nid, std::string_view value) {
  return der(kSequence, joined({object_id(nid), der(kSet, value)}));
}

/// Names every certificate, not the signer's alone, so that no embedded certificate can be exchanged. The issuers go in
/// the order they have in the CMS, where DER sorts them.
std::string signing_certificate_v2(const std::vector<std::string>& certificates) {
  const Certificate signer = read_certificate(certificates.at(0));
  std::vector<std::string> issuer_octets(certificates.begin() + 1, certificates.end());
  std::sort(issuer_octets.begin(), issuer_octets.end());
  const CertificateStack issuers(issuer_octets);
  using SigningCertificate = Handle<ESS_SIGNING_CERT_V2, ESS_SIGNING_CERT_V2_free>;
  const auto value = owned<SigningCertificate>(
      OSSL_ESS_signing_cert_v2_new_init(EVP_sha256(), signer.get(), issuers.get(), 1), "name the signing certificate");
  return encoded(value.get(), i2d_ESS_SIGNING_CERT_V2);
}

/// RSA with PKCS #1 v1.5 padding (RFC 3370, 3.2) or ECDSA with SHA-256 (RFC 5754, 3.3).
std::string signature_algorithm(X509* signer) {
  EVP_PKEY* key = X509_get0_pubkey(signer);
  switch (key == nullptr ? EVP_PKEY_NONE : EVP_PKEY_get_base_id(key)) {
    case EVP_PKEY_RSA: {
      constexpr std::string_view kNull("\x05\x00", 2);
      return der(kSequence, joined({object_id(NID_rsaEncryption), kNull}));
    }
    case EVP_PKEY_EC: return der(kSequence, object_id(NID_ecdsa_with_SHA256));
    default: throw std::runtime_error("the signing key is neither an RSA nor an elliptic curve key");
  }
}

std::string issuer_and_serial(X509* certificate) {
  return der(kSequence, joined({encoded(X509_get_issuer_name(certificate), i2d_X509_NAME),
                                encoded(X509_get0_serialNumber(certificate), i2d_ASN1_INTEGER)}));
}

/// An element with another tag in place of its own, as IMPLICIT tagging asks.
std::string retagged(std::string element, unsigned char tag) {
  element.at(0) = static_cast<char>(tag);
  return element;
}

std::string signer_info(const CmsParts& parts, std::string_view version, const std::string& digest_algorithm) {
  const Certificate signer = read_certificate(parts.certificates.at(0));
  std::string unsigned_attributes;
  if (!parts.time_stamp.empty()) {
    unsigned_attributes = der(kContext1, attribute(NID_id_smime_aa_timeStampToken, parts.time_stamp));
  }
  return der(kSequence, joined({version, issuer_and_serial(signer.get()), digest_algorithm,
                                retagged(parts.signed_attributes, kContext0), signature_algorithm(signer.get()),
                                der(kOctetString, parts.signature), unsigned_attributes}));
}

/// DER of a set: its elements in ascending order of their octets.
std::string set_of(std::vector<std::string> elements) {
  std::sort(elements.begin(), elements.end());
  std::string content;
  for (const auto& element : elements) content += element;
  return der(kSet, content);
}

CMS_SignerInfo* only_signer(CMS_ContentInfo* cms) {
  STACK_OF(CMS_SignerInfo)* signers = CMS_get0_SignerInfos(cms);
  if (signers == nullptr || sk_CMS_SignerInfo_num(signers) != 1) {
    throw std::runtime_error("the CMS does not have exactly one signer");
  }
  return sk_CMS_SignerInfo_value(signers, 0);
}

/// The token of the only unsigned attribute that a signature may have; empty when it has none.
std::string time_stamp_of(CMS_SignerInfo* signer) {
  const int count = CMS_unsigned_get_attr_count(signer);
  if (count <= 0) return {};
  X509_ATTRIBUTE* attribute = CMS_unsigned_get_attr(signer, 0);
  const bool is_time_stamp =
      count == 1 && OBJ_obj2nid(X509_ATTRIBUTE_get0_object(attribute)) == NID_id_smime_aa_timeStampToken &&
      X509_ATTRIBUTE_count(attribute) == 1 && ASN1_TYPE_get(X509_ATTRIBUTE_get0_type(attribute, 0)) == V_ASN1_SEQUENCE;
  if (!is_time_stamp) throw std::runtime_error("the CMS has other unsigned attributes than one time stamp");
  return encoded(X509_ATTRIBUTE_get0_type(attribute, 0), i2d_ASN1_TYPE);
}

std::vector<std::string> certificates_of(CMS_ContentInfo* cms, CMS_SignerInfo* signer) {
  STACK_OF(X509)* stack = CMS_get1_certs(cms);
  std::vector<std::string> certificates;
  for (int i = 0; i < sk_X509_num(stack); ++i) {
    X509* certificate = sk_X509_value(stack, i);
    const bool is_signer = CMS_SignerInfo_cert_cmp(signer, certificate) == 0;
    certificates.insert(is_signer ? certificates.begin() : certificates.end(), certificate_octets(certificate));
  }
  sk_X509_pop_free(stack, X509_free);
  if (certificates.empty()) throw std::runtime_error("the CMS holds no certificate");
  return certificates;
}

}  // namespace

std::string message_digest_attribute(const Digest& content) {
  const std::string_view octets(reinterpret_cast<const char*>(content.data()), content.size());
  return attribute(NID_pkcs9_messageDigest, der(kOctetString, octets));
}

std::string signing_certificate_attribute(const std::vector<std::string>& certificates) {
  return attribute(NID_id_smime_aa_signingCertificateV2, signing_certificate_v2(certificates));
}

std::string signed_attributes(const Digest& content, const std::vector<std::string>& certificates) {
  return set_of({attribute(NID_pkcs9_contentType, object_id(NID_pkcs7_data)), message_digest_attribute(content),
                 signing_certificate_attribute(certificates)});
}

std::string compose_cms(const CmsParts& parts) {
  const std::string version = der(kInteger, "\x01");
  const std::string digest_algorithm = der(kSequence, object_id(NID_sha256));
  const std::string certificates = retagged(set_of(parts.certificates), kContext0);
  const std::string signed_data =
      der(kSequence, joined({version, der(kSet, digest_algorithm), der(kSequence, object_id(NID_pkcs7_data)),
                             certificates, der(kSet, signer_info(parts, version, digest_algorithm))}));
  return der(kSequence, joined({object_id(NID_pkcs7_signed), der(kContext0, signed_data)}));
}

CmsParts parse_cms(std::string_view octets) {
  const auto* in = reinterpret_cast<const unsigned char*>(octets.data());
  using Cms = Handle<CMS_ContentInfo, CMS_ContentInfo_free>;
  const auto cms = owned<Cms>(d2i_CMS_ContentInfo(nullptr, &in, static_cast<long>(octets.size())), "read the CMS");
  CMS_SignerInfo* signer = only_signer(cms.get());
  CmsParts parts;
  parts.certificates = certificates_of(cms.get(), signer);
  std::vector<std::string> attributes;
  const int count = CMS_signed_get_attr_count(signer);
  attributes.reserve(count < 0 ? 0 : static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    attributes.push_back(encoded(CMS_signed_get_attr(signer, i), i2d_X509_ATTRIBUTE));
  }
  parts.signed_attributes = set_of(attributes);
  const ASN1_OCTET_STRING* signature = CMS_SignerInfo_get0_signature(signer);
  parts.signature.assign(reinterpret_cast<const char*>(ASN1_STRING_get0_data(signature)),
                         static_cast<std::size_t>(ASN1_STRING_length(signature)));
  parts.time_stamp = time_stamp_of(signer);
  return parts;
}

std::size_t der_element_size(std::string_view octets) {
  const auto* content = reinterpret_cast<const unsigned char*>(octets.data());
  const unsigned char* start = content;
  long length = 0;
  int tag = 0;
  int tag_class = 0;
  constexpr int kError = 0x80;
  const int outcome = ASN1_get_object(&content, &length, &tag, &tag_class, static_cast<long>(octets.size()));
  // Two octets of zero are the end of an indefinite length (X.690 8.1.5), which DER does not have: no element.
  const bool ends_contents = tag_class == V_ASN1_UNIVERSAL && tag == V_ASN1_EOC;
  if ((outcome & kError) != 0 || ends_contents) return 0;
  return static_cast<std::size_t>(content - start) + static_cast<std::size_t>(length);
}

}  // namespace panel_dossier
