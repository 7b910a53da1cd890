#include "core/seal/trust/revocation.h"

#include <openssl/err.h>
#include <openssl/evp.h>
#include <openssl/objects.h>
#include <openssl/ocsp.h>
#include <openssl/x509.h>
#include <openssl/x509_vfy.h>
#include <openssl/x509v3.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>

#include "core/seal/certificate.h"
#include "core/seal/pdf_date.h"

namespace panel_dossier {

namespace {

using List = Handle<X509_CRL, X509_CRL_free>;
using Response = Handle<OCSP_RESPONSE, OCSP_RESPONSE_free>;
using BasicResponse = Handle<OCSP_BASICRESP, OCSP_BASICRESP_free>;
using CertificateId = Handle<OCSP_CERTID, OCSP_CERTID_free>;

/// What one list or response says of one certificate.
struct Status {
  bool revoked = false;
  bool key_compromised = false;
  std::time_t since = 0;  ///< of the revocation
  std::string source;
};

std::optional<std::time_t> seconds_of(const ASN1_TIME* time) {
  std::tm parts{};
  if (time == nullptr || ASN1_TIME_to_tm(time, &parts) != 1) return std::nullopt;
  return timegm(&parts);
}

/// Signatures over SHA-1 and MD5 prove nothing.
bool is_weak(int signature_nid) {
  int digest = NID_undef;
  if (OBJ_find_sigid_algs(signature_nid, &digest, nullptr) != 1) return true;
  return digest == NID_sha1 || digest == NID_md5;
}

/// Whether what was said from `from` until `until` still tells something of the moment.
bool covers(const ASN1_TIME* from, const ASN1_TIME* until, std::time_t moment) {
  const auto begin = seconds_of(from);
  const auto end = seconds_of(until);
  constexpr std::time_t kClockDifference_s = 300;
  return begin && (end ? *end >= moment : *begin + kClockDifference_s >= moment);
}

/// A list that is of a part of the certificates, or only of what changed, does not say that a certificate is good.
bool is_whole_list(const X509_CRL* list) {
  return X509_CRL_get_ext_by_NID(list, NID_delta_crl, -1) < 0 &&
         X509_CRL_get_ext_by_NID(list, NID_issuing_distribution_point, -1) < 0;
}

std::optional<Status> status_in_list(const std::string& octets, X509* certificate, X509* issuer, std::time_t moment) {
  const auto* in = reinterpret_cast<const unsigned char*>(octets.data());
  const List list(d2i_X509_CRL(nullptr, &in, static_cast<long>(octets.size())));
  if (!list || X509_NAME_cmp(X509_CRL_get_issuer(list.get()), X509_get_subject_name(issuer)) != 0) return std::nullopt;
  if (is_weak(X509_CRL_get_signature_nid(list.get())) || X509_CRL_verify(list.get(), X509_get0_pubkey(issuer)) != 1) {
    return std::nullopt;
  }
  const bool tells_good = is_whole_list(list.get()) &&
                          covers(X509_CRL_get0_lastUpdate(list.get()), X509_CRL_get0_nextUpdate(list.get()), moment);
  Status status;
  status.source = "the revocation list of '" + subject_text(issuer) + "'";
  X509_REVOKED* entry = nullptr;
  constexpr int kListed = 1;
  if (X509_CRL_get0_by_cert(list.get(), &entry, certificate) != kListed) {
    return tells_good ? std::optional(status) : std::nullopt;
  }
  using Reason = Handle<ASN1_ENUMERATED, ASN1_ENUMERATED_free>;
  const Reason given(static_cast<ASN1_ENUMERATED*>(X509_REVOKED_get_ext_d2i(entry, NID_crl_reason, nullptr, nullptr)));
  const long reason = given ? ASN1_ENUMERATED_get(given.get()) : CRL_REASON_UNSPECIFIED;
  // An entry outlives its list, and a list of a part holds it as well; only a hold can have been lifted since.
  if (reason == CRL_REASON_CERTIFICATE_HOLD && !tells_good) return std::nullopt;
  status.revoked = true;
  status.since = seconds_of(X509_REVOKED_get0_revocationDate(entry)).value_or(0);
  status.key_compromised = reason == CRL_REASON_KEY_COMPROMISE;
  return status;
}

/// The response's signature, by the issuer or by whom the issuer gave that one task (RFC 6960, 4.2.2.2).
bool is_of_issuer(OCSP_BASICRESP* response, X509* issuer, std::time_t moment) {
  const ASN1_OBJECT* algorithm = nullptr;
  X509_ALGOR_get0(&algorithm, nullptr, nullptr, OCSP_resp_get0_tbs_sigalg(response));
  if (is_weak(OBJ_obj2nid(algorithm))) return false;
  using Store = Handle<X509_STORE, X509_STORE_free>;
  const auto store = owned<Store>(X509_STORE_new(), "look at an OCSP response");
  X509_STORE_add_cert(store.get(), issuer);
  X509_STORE_set_flags(store.get(), X509_V_FLAG_PARTIAL_CHAIN);
  X509_VERIFY_PARAM_set_time(X509_STORE_get0_param(store.get()), moment);
  const bool holds = OCSP_basic_verify(response, nullptr, store.get(), 0) == 1;
  ERR_clear_error();
  return holds;
}

std::optional<Status> status_in_response(const std::string& octets, X509* certificate, X509* issuer,
                                         std::time_t moment) {
  const auto* in = reinterpret_cast<const unsigned char*>(octets.data());
  const Response response(d2i_OCSP_RESPONSE(nullptr, &in, static_cast<long>(octets.size())));
  if (!response || OCSP_response_status(response.get()) != OCSP_RESPONSE_STATUS_SUCCESSFUL) return std::nullopt;
  const BasicResponse basic(OCSP_response_get1_basic(response.get()));
  if (!basic || !is_of_issuer(basic.get(), issuer, moment)) return std::nullopt;
  const std::array<const EVP_MD*, 2> digests{EVP_sha1(), EVP_sha256()};  // by which a responder names a certificate
  for (const EVP_MD* digest : digests) {
    const CertificateId id(OCSP_cert_to_id(digest, certificate, issuer));
    int state = 0;
    int reason = 0;
    ASN1_GENERALIZEDTIME* since = nullptr;
    ASN1_GENERALIZEDTIME* from = nullptr;
    ASN1_GENERALIZEDTIME* until = nullptr;
    if (!id || OCSP_resp_find_status(basic.get(), id.get(), &state, &reason, &since, &from, &until) != 1) continue;
    const bool revoked = state == V_OCSP_CERTSTATUS_REVOKED;
    const bool stays = revoked && reason != OCSP_REVOKED_STATUS_CERTIFICATEHOLD;  // after the response has run out
    if (state == V_OCSP_CERTSTATUS_UNKNOWN || (!stays && !covers(from, until, moment))) return std::nullopt;
    return Status{revoked, revoked && reason == OCSP_REVOKED_STATUS_KEYCOMPROMISE, seconds_of(since).value_or(0),
                  "the OCSP responder of '" + subject_text(issuer) + "'"};
  }
  return std::nullopt;
}

/// A revocation that anybody tells counts more than what another does not know of; of two, the one of a stolen key,
/// then the earlier.
bool is_worse(const Status& one, const Status& other) {
  if (one.revoked != other.revoked) return one.revoked;
  if (!one.revoked) return false;
  if (one.key_compromised != other.key_compromised) return one.key_compromised;
  return one.since < other.since;
}

std::optional<Status> status_of(X509* certificate, X509* issuer, const RevocationData& data, std::time_t moment) {
  std::optional<Status> found;
  const auto take = [&found](std::optional<Status> status) {
    if (status && (!found || is_worse(*status, *found))) found = std::move(status);
  };
  for (const std::string& response : data.responses) take(status_in_response(response, certificate, issuer, moment));
  for (const std::string& list : data.lists) take(status_in_list(list, certificate, issuer, moment));
  return found;
}

Judgement judged(X509* certificate, const std::optional<Status>& status, const Moment& moment) {
  const std::string name = "'" + subject_text(certificate) + "'";
  if (!status) {
    return {Answer::open,
            "no current revocation list or OCSP response tells of " + name + "; give its issuer's list with --trust"};
  }
  if (!status->revoked) return {Answer::holds, name + " was not revoked, says " + status->source};
  const std::string revoked = name + " was revoked at " + iso_from_seconds(status->since) + ", says " + status->source;
  if (moment.proven && !status->key_compromised && status->since > moment.time) {
    return {Answer::holds, revoked + ", after the proven time of the signature"};
  }
  return {Answer::fails, revoked + (status->key_compromised ? " (its key is in other hands)" : "")};
}

}  // namespace

Judgement revocation_of(const std::vector<std::string>& path, const RevocationData& data, const Moment& moment) {
  Judgement whole{Answer::holds, {}};
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    const Certificate certificate = read_certificate(path[i]);
    const Certificate issuer = read_certificate(path[i + 1]);
    const Judgement one =
        judged(certificate.get(), status_of(certificate.get(), issuer.get(), data, moment.time), moment);
    whole.answer = std::max(whole.answer, one.answer);
    whole.words += (whole.words.empty() ? "" : "; ") + one.words;
  }
  return whole;
}

}  // namespace panel_dossier
