#include "core/seal/verification/signature_steps.h"

#include <openssl/evp.h>
#include <openssl/x509.h>

#include <cstddef>
#include <qpdf/QUtil.hh>
#include <utility>
#include <vector>

#include "core/intake/document/sha256.h"
#include "core/seal/certificate.h"
#include "core/seal/certificates/certificate_rules.h"
#include "core/seal/pdf_date.h"

namespace panel_dossier {

std::string whole_file_covered(std::string_view bytes, const SignatureFacts& facts) {
  const auto begin = static_cast<long long>(facts.place.contents_begin);
  const auto end = static_cast<long long>(facts.place.contents_end);
  const auto size = static_cast<long long>(bytes.size());
  require_step(facts.byte_range == std::vector<long long>{0, begin, end, size - end},
               "the signed ranges leave out more than the signature itself; something was added or cut after signing");
  return std::to_string(size) + " bytes, all but the " + std::to_string(end - begin) + " of the signature itself";
}

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

namespace {

std::string form_kept(const SignatureFacts& facts, const std::string& cms, const CmsParts& parts) {
  require_step(facts.sub_filter == "/ETSI.CAdES.detached", "its form is '" + facts.sub_filter + "'");
  require_step(compose_cms(parts) == cms, "parts that no signature covers differ from the form this program writes");
  return std::string("PAdES baseline ") + (parts.time_stamp.empty() ? "B" : "T") + ", " + std::to_string(cms.size()) +
         " bytes";
}

std::string digest_signed(const Digest& content, const CmsParts& parts) {
  require_step(parts.signed_attributes.find(message_digest_attribute(content)) != std::string::npos,
               "the content was changed after signing");
  return "SHA-256 " + to_hex(content);
}

std::string certificate_named(const Digest& content, const CmsParts& parts) {
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

std::string fit_to_sign(const CmsParts& parts) {
  const Certificate signer = read_certificate(parts.certificates.at(0));
  std::string fault = signing_fault(signer.get());
  if (fault.empty()) fault = issuer_fault({parts.certificates.begin() + 1, parts.certificates.end()});
  require_step(fault.empty(), fault);
  return "strong enough, and meant for signing documents";
}

std::string described_certificate(const CmsParts& parts, const std::string& date) {
  const Certificate certificate = read_certificate(parts.certificates.at(0));
  const std::string time_utc = iso_from_pdf_date(date);
  const std::string fault = validity_fault(certificate.get(), seconds_from_iso(time_utc));
  require_step(fault.empty(), "signed " + time_utc + ", but the certificate is " + fault);
  const std::string issuer = is_demonstration(certificate.get()) ? "self-signed demonstration key, not for issue"
                             : X509_self_signed(certificate.get(), 1) == 1
                                 ? "self-signed"
                                 : "issued by '" + issuer_text(certificate.get()) + "'";
  return "'" + subject_text(certificate.get()) + "', " + issuer + ", valid at the time it claims (" + time_utc +
         "), SHA-256 " + to_hex(sha256(parts.certificates.front()));
}

}  // namespace

std::optional<CmsParts> add_signature_steps(StepList& steps, std::string_view revision, const SignatureFacts& facts,
                                            const std::string& whose) {
  const SignaturePlace& place = facts.place;
  steps.run(whose + "the signature covers the whole file", [&] { return whole_file_covered(revision, facts); });
  Sha256 hasher;
  hasher.add(revision.substr(0, place.contents_begin));
  hasher.add(revision.substr(place.contents_end));
  const Digest content = hasher.finish();
  std::optional<CmsParts> parts;
  steps.run(whose + "the signature has the form this program writes", [&] {
    const std::string cms =
        cms_in_gap(revision.substr(place.contents_begin, place.contents_end - place.contents_begin));
    CmsParts read = parse_cms(cms);
    read_certificate(read.certificates.at(0));
    parts = std::move(read);
    return form_kept(facts, cms, *parts);
  });
  if (!parts) return parts;
  steps.run(whose + "the signed digest is that of the file", [&] { return digest_signed(content, *parts); });
  steps.run(whose + "the signing certificate is the one that was signed",
            [&] { return certificate_named(content, *parts); });
  steps.run(whose + "the signature was made with the certificate's key", [&] { return value_fits(*parts); });
  steps.run(whose + "the key and its certificate are fit to sign", [&] { return fit_to_sign(*parts); });
  steps.run(whose + "the certificate", [&] { return described_certificate(*parts, facts.date); });
  return parts;
}

}  // namespace panel_dossier
