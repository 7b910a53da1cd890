#include "core/seal/verify.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <qpdf/QPDF.hh>
#include <string_view>
#include <utility>
#include <vector>

#include "core/seal/certificate.h"
#include "core/seal/file_bytes.h"
#include "core/seal/finish.h"
#include "core/seal/pdf_date.h"
#include "core/seal/revision/increment.h"
#include "core/seal/revision/kept_proofs.h"
#include "core/seal/signature_field.h"
#include "core/seal/trust/trust_store.h"
#include "core/seal/verification/additions.h"
#include "core/seal/verification/content_steps.h"
#include "core/seal/verification/judged_signature.h"
#include "core/seal/verification/page_steps.h"
#include "core/seal/verification/signature_steps.h"
#include "core/seal/verification/stamp_steps.h"
#include "core/seal/verification/step_list.h"

namespace panel_dossier {

namespace {

std::string opened(QPDF& pdf, std::string_view bytes) {
  pdf.setSuppressWarnings(true);
  // A damaged file is refused, not repaired: the repaired one is not what was signed.
  pdf.setAttemptRecovery(false);
  pdf.processMemoryFile("dossier", bytes.data(), bytes.size());
  return "PDF " + pdf.getPDFVersion() + ", " + std::to_string(pdf.getAllPages().size()) + " pages";
}

/// The revision's own bytes, and what is asked of its signature.
struct SignedRevision {
  std::string_view bytes;
  SignatureFacts facts;
  Approval approval;  ///< of the first: role `author` alone
};

/// Everything up to a document time stamp, and what its token says.
struct StampedRevision {
  std::string_view bytes;
  TimeStamp stamp;
};

KeptProofs proofs_in(std::string_view bytes) {
  QPDF pdf;
  opened(pdf, bytes);
  return read_proofs(pdf);
}

/// Collects the steps of a verification, signature by signature.
class Verifier {
 public:
  Verifier(const std::string& bytes, const TrustStore& trust) : bytes_(bytes), trust_(trust) {}

  /// The first revision: what a build wrote and signed, and everything that is attached to it.
  void look_at_dossier(AttachedContent& content, const std::filesystem::path& file) {
    sizes_ = revision_sizes(bytes_);
    const std::string_view first = std::string_view(bytes_).substr(0, sizes_.front());
    QPDF pdf;
    SignedRevision revision{first, {}, {"author", {}, {}, {}}};
    if (!steps_.run("the file opens", [&] { return opened(pdf, first); }) || !steps_.run("it has one signature", [&] {
          revision.facts = read_signature(pdf, first);
          return "dated " + revision.facts.date;
        })) {
      return;
    }
    const auto parts = add_signature_steps(steps_, first, revision.facts);
    if (parts) {
      content.for_issue = !is_demonstration(read_certificate(parts->certificates.at(0)).get());
      verification_.for_issue = content.for_issue;
    }
    remember(revision, parts);
    look_at_attachments(pdf, content, file);
  }

  /// Every later revision: what was added, and that it is nothing else.
  void look_at_additions() {
    for (std::size_t i = 1; i < sizes_.size(); ++i) {
      const std::string_view whole = bytes_;
      const std::string_view after = whole.substr(0, sizes_[i]);
      Addition addition;
      const bool known = steps_.run("addition " + std::to_string(i) + " is one that this program makes", [&] {
        addition = read_addition(whole.substr(0, sizes_[i - 1]), after);
        return addition.words;
      });
      if (!known) {
        changed_ = true;
        break;
      }
      words_ += (words_.empty() ? "" : "; ") + addition.words;
      if (addition.approval) {
        const std::string whose =
            "signature " + std::to_string(signed_.size() + 1) + ", " + addition.approval->role + ": ";
        const SignedRevision revision{after, addition.facts, *addition.approval};
        remember(revision, add_signature_steps(steps_, after, addition.facts, whose));
      }
      if (!addition.is_time_stamp) continue;
      const std::string whose = "time stamp " + std::to_string(stamps_.size() + 1) + ": ";
      if (auto stamp = add_stamp_steps(steps_, after, addition.facts, whose))
        stamps_.push_back({after, std::move(*stamp)});
    }
  }

  Verification finish() {
    steps_.run("signers, times and trust can be judged", [&] {
      judge();
      return "signatures: " + std::to_string(verification_.signatures.size());
    });
    verification_.changes = changes();
    verification_.steps = steps_.take();
    return std::move(verification_);
  }

 private:
  const std::string& bytes_;
  const TrustStore& trust_;
  std::vector<std::size_t> sizes_;
  StepList steps_;
  Verification verification_;
  std::vector<std::pair<SignedRevision, CmsParts>> signed_;
  std::vector<StampedRevision> stamps_;
  std::string words_;  ///< what was added
  bool changed_ = false;

  void remember(const SignedRevision& revision, const std::optional<CmsParts>& parts) {
    if (parts) signed_.emplace_back(revision, *parts);
  }

  void look_at_attachments(QPDF& pdf, AttachedContent& content, const std::filesystem::path& file) {
    if (!steps_.run("the attachments can be read", [&] {
          content.attachments = read_attachments(pdf);
          content.xmp = read_metadata(pdf);
          return std::to_string(content.attachments.size()) + " files";
        })) {
      return;
    }
    verification_.volume = volume_of(content.xmp);
    add_page_step(steps_, content, pdf);
    if (verification_.volume.empty()) {
      const ResultsDocument results = add_content_steps(steps_, content);
      verification_.incomplete = results.build.incomplete;
      add_panel_steps(steps_, content, results, pdf);
    } else {
      steps_.run("its dossier names it", [&] { return named_by_dossier(std::filesystem::absolute(file), bytes_); });
    }
    const auto volumes = content.attachments.find(std::string(kVolumesAttachment));
    if (volumes == content.attachments.end()) return;
    steps_.run("the volumes are those of this dossier",
               [&] { return volumes_unchanged(volumes->second, content.project_dir); });
  }

  /// Throws std::runtime_error when a signature cannot be judged.
  void judge() {
    KeptProofs proofs;
    if (sizes_.size() > 1 && !changed_) proofs = proofs_in(bytes_);
    std::optional<ProvenState> proven;
    for (const StampedRevision& revision : stamps_) {
      VerifiedTimeStamp stamp;
      judge_document_stamp(stamp, revision.stamp, trust_, proofs);
      // The first that is trusted tells how old the signatures are, the last which proofs are as old as that.
      if (stamp.trust.answer == Answer::holds) {
        const std::string first = proven ? proven->time_utc : stamp.time_utc;
        proven = ProvenState{first, proofs_in(revision.bytes)};
      }
      verification_.time_stamps.push_back(std::move(stamp));
    }
    for (const auto& [revision, parts] : signed_) {
      VerifiedSignature signature;
      signature.role = revision.approval.role;
      signature.reason = revision.approval.reason;
      signature.claimed_time_utc = iso_from_pdf_date(revision.facts.date);
      judge_signature(signature, parts, trust_, proofs, covers(proven, revision) ? &*proven : nullptr);
      const std::string& shown = revision.approval.signer;
      require_step(shown.empty() || shown == signature.signer,
                   "the page shows '" + shown + "', but '" + signature.signer + "' signed");
      verification_.signatures.push_back(std::move(signature));
    }
  }

  /// Whether a trusted time stamp stands behind the signature.
  bool covers(const std::optional<ProvenState>& proven, const SignedRevision& revision) const {
    return proven && std::any_of(stamps_.begin(), stamps_.end(), [&](const StampedRevision& stamped) {
             return stamped.stamp.time_utc == proven->time_utc && stamped.bytes.size() >= revision.bytes.size();
           });
  }

  Judgement changes() const {
    if (changed_) return {Answer::fails, "something was added by another hand, see above"};
    if (sizes_.size() < 2) return {Answer::holds, "nothing was added after signing"};
    return {Answer::holds, "added to the signed dossier, and nothing else changed: " + words_};
  }
};

}  // namespace

bool Verification::holds() const {
  return !steps.empty() &&
         std::all_of(steps.begin(), steps.end(), [](const VerificationStep& step) { return step.holds; });
}

Answer Verification::answer() const {
  if (!holds() || signatures.empty()) return Answer::fails;
  Answer least = std::max(changes.answer, incomplete ? Answer::open : Answer::holds);
  for (const VerifiedSignature& signature : signatures) {
    least = std::max({least, signature.trust.answer, signature.time.answer, signature.revocation.answer});
  }
  for (const VerifiedTimeStamp& stamp : time_stamps) least = std::max(least, stamp.trust.answer);
  return least;
}

Verification verify_dossier(const std::filesystem::path& file, const std::filesystem::path& schema_dir,
                            const TrustSources& sources, const std::string& panel) {
  const TrustStore trust(sources);
  const std::string bytes = read_bytes(file);
  AttachedContent content;
  content.schema_dir = schema_dir;
  content.project_dir = std::filesystem::absolute(file).parent_path();
  content.file = std::filesystem::absolute(file);
  content.panel = panel;
  Verifier verifier(bytes, trust);
  verifier.look_at_dossier(content, file);
  verifier.look_at_additions();
  return verifier.finish();
}

}  // namespace panel_dossier
