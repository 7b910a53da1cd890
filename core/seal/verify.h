// Verification of a signed dossier from the PDF alone, and of who signed it from what the reader trusts.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace panel_dossier {

/// What a question about a dossier came to. `open`: it could not be answered, which is never as good as `holds`.
enum class Answer { holds, open, fails };

struct Judgement {
  Answer answer = Answer::open;
  std::string words;  ///< what was found, and where it is not `holds` what to do
};

struct VerificationStep {
  std::string what;  ///< for example `the signature covers the whole file`
  bool holds = false;
  std::string detail;  ///< what was found; when it does not hold, what that means and what to do
};

/// Whom the reader trusts, known by another way than the dossier itself.
struct TrustSources {
  std::vector<std::filesystem::path> files;  ///< PEM files or folders of them: certificates, and revocation lists
  std::vector<std::string> fingerprints;     ///< SHA-256 of signers' certificates, hexadecimal, `:` allowed
  std::string time_utc;                      ///< as of when; empty: the machine's clock
};

struct VerifiedSignature {
  std::string role;         ///< `author` for the one that a build makes
  std::string reason;       ///< as its signer stated; may be empty
  std::string signer;       ///< subject of the certificate, RFC 2253 text
  std::string fingerprint;  ///< SHA-256 of the certificate, lower-case hexadecimal
  std::string form;         ///< `PAdES B-B`, `PAdES B-T`, `PAdES B-LT` or `PAdES B-LTA`
  std::string claimed_time_utc;
  std::string proven_time_utc;  ///< of a time stamp of a trusted authority; empty: none
  Judgement trust;
  Judgement time;
  Judgement revocation;
};

/// Of a document time stamp, which proves when everything before it existed.
struct VerifiedTimeStamp {
  std::string time_utc;
  std::string authority;  ///< subject of its certificate, RFC 2253 text
  Judgement trust;        ///< whether that leads to somebody whom the reader named, and was not revoked
};

struct Verification {
  std::vector<VerificationStep> steps;  ///< integrity: none of them asks whom the reader trusts
  std::vector<VerifiedSignature> signatures;
  std::vector<VerifiedTimeStamp> time_stamps;  ///< of the document, in the order in which they were added
  Judgement changes;                           ///< what was added after the first signature
  bool for_issue = false;                      ///< signed with another key than the demonstration key
  bool incomplete = false;                     ///< the build says that a plugin or a file failed
  std::string volume;  ///< title where the file is a volume of a dossier: only the dossier itself proves its figures

  /// Integrity: every step holds.
  bool holds() const;
  /// The least of integrity, changes, each signature's trust, time and revocation, and each time stamp's trust; an
  /// incomplete build is open.
  Answer answer() const;
};

/// Recomputes everything: signature and ByteRange, signing certificate attribute, attachments, the panel hashes from
/// the attached export, the finding hashes from the attached results.json, the hash tree and its root in the metadata.
/// Judges each signature by `trust`. For a `panel`, by its mark or GlobalId, also its hash, the path from there to the
/// signed root, and its pages, in this file or the volume that holds them. Throws std::runtime_error only when the
/// file, or a source of trust, cannot be read at all.
Verification verify_dossier(const std::filesystem::path& file, const std::filesystem::path& schema_dir,
                            const TrustSources& trust = {}, const std::string& panel = {});

}  // namespace panel_dossier
