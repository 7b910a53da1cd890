#include "core/seal/verification/judged_signature.h"

#include <openssl/x509.h>

#include <algorithm>
#include <ctime>
#include <exception>
#include <optional>

#include "core/intake/document/sha256.h"
#include "core/seal/certificate.h"
#include "core/seal/pdf_date.h"
#include "core/seal/time/time_stamp.h"

namespace panel_dossier {

namespace {

constexpr std::time_t kClockDifference_s = 300;
constexpr std::time_t kDay_s = 86400;

/// What there is of a signature's time stamp.
struct Stamp {
  std::optional<TimeStamp> stamp;  ///< none: there is no token, or one that does not hold
  std::string fault;               ///< of a token that does not hold
  TrustPath path;                  ///< of its authority
  std::time_t time = 0;

  bool proves() const { return stamp && !path.certificates.empty(); }
};

std::vector<std::string> joined(std::vector<std::string> first, const std::vector<std::string>& second) {
  first.insert(first.end(), second.begin(), second.end());
  return first;
}

Stamp stamp_of(const CmsParts& parts, const TrustStore& trust, const KeptProofs& proofs) {
  Stamp found;
  if (parts.time_stamp.empty()) return found;
  try {
    found.stamp = read_time_stamp(parts.time_stamp, parts.signature);
    found.time = seconds_from_iso(found.stamp->time_utc);
    const std::vector<std::string>& certificates = found.stamp->certificates;
    found.path = trust.path(certificates.front(), joined(certificates, proofs.certificates), found.time);
  } catch (const std::exception& error) {
    found.fault = error.what();
  }
  return found;
}

Judgement judged_trust(const CmsParts& parts, x509_st* certificate, const TrustStore& trust, const TrustPath& path) {
  if (trust.is_empty()) {
    const std::string who = X509_self_signed(certificate, 1) == 1
                                ? "self-signed, so that anybody could have made it under this name"
                                : "issued by '" + issuer_text(certificate) + "'";
    return {Answer::open, "nobody was named whom you trust (--trust, --fingerprint); the certificate is " + who};
  }
  if (path.certificates.empty()) {
    return {Answer::fails, "the certificate leads to nobody whom you named: " + path.fault};
  }
  if (trust.names(parts.certificates.front())) return {Answer::holds, "you named this very certificate"};
  const Certificate anchor = read_certificate(path.certificates.back());
  return {Answer::holds, "vouched for by '" + subject_text(anchor.get()) + "', whom you named"};
}

/// By the claim of the signer alone.
Judgement judged_claim(std::time_t claimed, const CmsParts& parts, const TrustStore& trust, const KeptProofs& proofs,
                       const ProvenState* proven, const std::string& why_unproven) {
  const std::string claim = "claimed by the signer, " + why_unproven;
  if (claimed > trust.now() + kClockDifference_s) return {Answer::open, claim + "; it lies in the future"};
  const Certificate certificate = read_certificate(parts.certificates.front());
  std::string fault = validity_fault(certificate.get(), trust.now());
  if (fault.empty() && !trust.is_empty() && !trust.names(parts.certificates.front())) {
    const auto others = joined(parts.certificates, proofs.certificates);
    const bool held_then = !trust.path(parts.certificates.front(), others, claimed).certificates.empty();
    const TrustPath now = trust.path(parts.certificates.front(), others, trust.now());
    if (held_then && now.certificates.empty()) fault = "no longer vouched for: " + now.fault;
  }
  if (fault.empty()) return {Answer::holds, claim};
  if (proven != nullptr && validity_fault(certificate.get(), seconds_from_iso(proven->time_utc)).empty()) {
    return {Answer::holds, claim + "; by the dossier's time stamp it existed " + proven->time_utc +
                               ", when the certificate was valid"};
  }
  return {Answer::open, claim + "; the certificate is " + fault +
                            ", and nothing shows that the signature was made while it was valid"};
}

Judgement judged_time(std::time_t claimed, const CmsParts& parts, const Stamp& stamp, const TrustStore& trust,
                      const KeptProofs& proofs, const ProvenState* proven) {
  if (!stamp.fault.empty()) return {Answer::fails, stamp.fault};
  if (!stamp.stamp) return judged_claim(claimed, parts, trust, proofs, proven, "not proven by a time stamp");
  const std::string by = stamp.stamp->time_utc + " by '" + stamp.stamp->authority + "'";
  if (!stamp.proves()) {
    return judged_claim(claimed, parts, trust, proofs, proven,
                        "and stamped " + by + ", which leads to nobody whom you named: " +
                            (trust.is_empty() ? std::string("there is nobody named") : stamp.path.fault));
  }
  const Certificate certificate = read_certificate(parts.certificates.front());
  const std::string fault = validity_fault(certificate.get(), stamp.time);
  if (!fault.empty()) return {Answer::fails, "proven " + by + ", but the certificate is " + fault};
  if (stamp.time > trust.now() + kClockDifference_s) return {Answer::open, "stamped " + by + ", in the future"};
  if (claimed > stamp.time + kClockDifference_s) {
    return {Answer::open, "proven " + by + ", before the time that the signer claims"};
  }
  if (claimed + kDay_s < stamp.time) {
    return {Answer::open, "proven " + by +
                              " only, more than a day after the time that the signer claims: the claim "
                              "may be back-dated"};
  }
  return {Answer::holds, "proven " + by};
}

Judgement judged_revocation(const CmsParts& parts, const Stamp& stamp, const TrustPath& path, std::time_t now,
                            const RevocationData& data) {
  const Certificate certificate = read_certificate(parts.certificates.front());
  // Its issuer among the embedded ones may tell of a revocation even where the reader trusts nobody.
  std::vector<std::string> known = path.certificates;
  if (known.size() < 2) known = parts.certificates;
  const Moment moment{stamp.proves() ? stamp.time : now, stamp.proves()};
  Judgement judgement = revocation_of(known, data, moment);
  if (X509_self_signed(certificate.get(), 1) == 1)
    return {Answer::holds, "a self-signed certificate has nobody who could revoke it"};
  if (judgement.answer == Answer::open && path.certificates.size() == 1) {
    return {Answer::holds, "not asked of its issuer: you named this very certificate"};
  }
  if (known.size() < 2) return {Answer::open, "not looked at: the issuer's certificate is not known"};
  if (judgement.answer == Answer::fails || !stamp.proves()) return judgement;
  const Judgement authority = revocation_of(stamp.path.certificates, data, moment);
  if (authority.answer == Answer::fails) return {Answer::fails, "the time-stamp authority: " + authority.words};
  return judgement;
}

/// `LT` where the dossier itself keeps what tells that the signer's path and the authority's were not revoked, `LTA`
/// where a document time stamp covers that.
std::string baseline_of(const CmsParts& parts, const Stamp& stamp, const TrustPath& path, const KeptProofs& proofs,
                        const ProvenState* proven) {
  if (parts.time_stamp.empty()) return "B";
  if (!stamp.proves() || path.certificates.size() < 2) return "T";
  const Moment moment{stamp.time, true};
  const auto kept_in = [&](const KeptProofs& kept) {
    return revocation_of(path.certificates, kept.revocation, moment).answer == Answer::holds &&
           revocation_of(stamp.path.certificates, kept.revocation, moment).answer == Answer::holds;
  };
  if (!kept_in(proofs)) return "T";
  return proven != nullptr && kept_in(proven->proofs) ? "LTA" : "LT";
}

}  // namespace

void judge_document_stamp(VerifiedTimeStamp& judged, const TimeStamp& stamp, const TrustStore& trust,
                          const KeptProofs& proofs) {
  judged.time_utc = stamp.time_utc;
  judged.authority = stamp.authority;
  const std::time_t time = seconds_from_iso(stamp.time_utc);
  const TrustPath path = trust.path(stamp.certificates.front(), joined(stamp.certificates, proofs.certificates), time);
  if (path.certificates.empty()) {
    judged.trust = {Answer::open, "its authority leads to nobody whom you named: " +
                                      (trust.is_empty() ? std::string("there is nobody named") : path.fault)};
    return;
  }
  if (time > trust.now() + kClockDifference_s) {
    judged.trust = {Answer::open, "its time lies in the future"};
    return;
  }
  RevocationData data = proofs.revocation;
  data.lists.insert(data.lists.end(), trust.revocation_lists().begin(), trust.revocation_lists().end());
  const Judgement revocation = revocation_of(path.certificates, data, {time, true});
  judged.trust =
      revocation.answer == Answer::fails
          ? Judgement{Answer::fails, "its authority: " + revocation.words}
          : Judgement{Answer::holds,
                      "all that stands before it existed then, by an authority that leads to somebody whom you named"};
}

void judge_signature(VerifiedSignature& signature, const CmsParts& parts, const TrustStore& trust,
                     const KeptProofs& proofs, const ProvenState* proven) {
  const std::string& octets = parts.certificates.at(0);
  const Certificate certificate = read_certificate(octets);
  signature.signer = subject_text(certificate.get());
  signature.fingerprint = to_hex(sha256(octets));
  const Stamp stamp = stamp_of(parts, trust, proofs);
  if (stamp.proves()) signature.proven_time_utc = stamp.stamp->time_utc;
  const std::time_t claimed = seconds_from_iso(signature.claimed_time_utc);
  const std::time_t when = stamp.proves() ? stamp.time : claimed;
  const TrustPath path = trust.path(octets, joined(parts.certificates, proofs.certificates), when);
  signature.trust = judged_trust(parts, certificate.get(), trust, path);
  signature.time = judged_time(claimed, parts, stamp, trust, proofs, proven);
  RevocationData data = proofs.revocation;
  data.lists.insert(data.lists.end(), trust.revocation_lists().begin(), trust.revocation_lists().end());
  signature.revocation = judged_revocation(parts, stamp, path, trust.now(), data);
  signature.form = "PAdES B-" + baseline_of(parts, stamp, path, proofs, proven);
}

}  // namespace panel_dossier
