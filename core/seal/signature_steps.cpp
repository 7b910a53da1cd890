#include "core/seal/signature_steps.h"

#include <openssl/evp.h>
#include <openssl/x509.h>

#include <qpdf/QUtil.hh>
#include <stdexcept>

#include "core/seal/certificate.h"
#include "core/seal/cms_form.h"
#include "core/seal/openssl_handle.h"
#include "core/seal/pdf_date.h"
#include "core/seal/step_list.h"
#include "core/trace/sha256.h"

namespace panel_dossier {

namespace {

std::string whole_file_covered(std::string_view bytes, const SignatureFacts& facts) {
  const auto begin = static_cast<long long>(facts.place.contents_begin);
  const auto end = static_cast<long long>(facts.place.contents_end);
  const auto size = static_cast<long long>(bytes.size());
  require_step(facts.byte_range == std::vector<long long>{0, begin, end, size - end},
               "the signed ranges leave out more than the signature itself; something was added or cut after signing");
  return std::to_string(size) + " bytes, all but the " + std::to_string(end - begin) + " of the signature itself";
}

/// The CMS in the gap, whose hexadecimal digits and padding may have one form only.
std::string cms_in_gap(std::string_view gap) {
  const std::string_view digits = gap.substr(1, gap.size() - 2);
  const std::string octets = QUtil::hex_decode(std::string(digits));
  require_step(QUtil::hex_encode(octets) == digits, "the signature is not written in lower-case hexadecimal digits");
  const std::size_t size = der_element_size(octets);
  require_step(size != 0 && size <= octets.size(), "the signature is not a CMS in DER, or the file is not signed");
  require_step(octets.find_first_not_of('\0', size) == std::string::npos,
               "the padding behind the signature is not all zero");
  return octets.substr(0, size);
}

std::string form_kept(const SignatureFacts& facts, const std::string& cms, const CmsParts& parts) {
  require_step(facts.sub_filter == "/ETSI.CAdES.detached", "its form is '" + facts.sub_filter + "'");
  require_step(compose_cms(parts) == cms, "parts that no signature covers differ from the form this program writes");
  return "PAdES baseline B, " + std::to_string(cms.size()) + " bytes";
}

std::string digest_signed(const std::string& content, const CmsParts& parts) {
  require_step(parts.signed_attributes.find(message_digest_attribute(content)) != std::string::npos,
               "the content was changed after signing");
  return "SHA-256 " + to_hex(sha256(content));
}

std::string certificate_named(const std::string& content, const CmsParts& parts) {
  require_step(parts.signed_attributes.find(signing_certificate_attribute(parts.certificates)) != std::string::npos,
               "the certificate was exchanged after signing");
  require_step(parts.signed_attributes == signed_attributes(content, parts.certificates),
               "there are other signed attributes than the baseline's");
  return "number of certificates: " + std::to_string(parts.certificates.size()) + ", each named with its SHA-256";
}

std::string value_fits(const CmsParts& parts) {
  using Context = Handle<EVP_MD_CTX, EVP_MD_CTX_free>;
  const Certificate signer = read_certificate(parts.certificates.at(0));
  const auto context = owned<Context>(EVP_MD_CTX_new(), "verify");
  const auto* signature = reinterpret_cast<const unsigned char*>(parts.signature.data());
  const auto* content = reinterpret_cast<const unsigned char*>(parts.signed_attributes.data());
  EVP_PKEY* key = X509_get0_pubkey(signer.get());
  require_step(key != nullptr && EVP_DigestVerifyInit(context.get(), nullptr, EVP_sha256(), nullptr, key) == 1 &&
                   EVP_DigestVerify(context.get(), signature, parts.signature.size(), content,
                                    parts.signed_attributes.size()) == 1,
               "the signature was not made with the certificate's key over these attributes");
  return std::to_string(EVP_PKEY_get_bits(key)) + " bit key";
}

std::string described_certificate(x509_st* certificate, const std::string& date) {
  const std::string time_utc = iso_from_pdf_date(date);
  const std::string fault = validity_fault(certificate, seconds_from_iso(time_utc));
  require_step(fault.empty(), "signed " + time_utc + ", but the certificate is " + fault);
  const bool self_signed = X509_self_signed(certificate, 1) == 1;
  const std::string trust =
      is_demonstration(certificate) ? "self-signed demonstration key, not for issue"
      : self_signed                 ? "self-signed: nobody else vouches for this name; compare the fingerprint "
                                      "with one that the signatory gave you another way"
                    : "issued by '" + issuer_text(certificate) + "'; whether to trust that issuer is for you to decide";
  return "'" + subject_text(certificate) + "', " + trust + ", valid when signed (" + time_utc + "), SHA-256 " +
         to_hex(sha256(certificate_octets(certificate)));
}

}  // namespace

bool add_signature_steps(StepList& steps, std::string_view bytes, const SignatureFacts& facts) {
  const SignaturePlace& place = facts.place;
  steps.run("the signature covers the whole file", [&] { return whole_file_covered(bytes, facts); });
  const std::string content =
      std::string(bytes.substr(0, place.contents_begin)) + std::string(bytes.substr(place.contents_end));
  CmsParts parts;
  Certificate certificate;
  const bool readable = steps.run("the signature has the form this program writes", [&] {
    const std::string cms = cms_in_gap(bytes.substr(place.contents_begin, place.contents_end - place.contents_begin));
    parts = parse_cms(cms);
    certificate = read_certificate(parts.certificates.at(0));
    return form_kept(facts, cms, parts);
  });
  if (!certificate) return false;
  steps.run("the signed digest is that of the file", [&] { return digest_signed(content, parts); });
  steps.run("the signing certificate is the one that was signed", [&] { return certificate_named(content, parts); });
  steps.run("the signature was made with the certificate's key", [&] { return value_fits(parts); });
  steps.run("the certificate", [&] { return described_certificate(certificate.get(), facts.date); });
  return readable && !is_demonstration(certificate.get());
}

}  // namespace panel_dossier
