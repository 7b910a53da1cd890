#include "core/seal/verify.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <qpdf/QPDF.hh>
#include <utility>

#include "core/seal/certificate.h"
#include "core/seal/file_bytes.h"
#include "core/seal/finish.h"
#include "core/seal/pdf_date.h"
#include "core/seal/signature_field.h"
#include "core/seal/trust/trust_store.h"
#include "core/seal/verification/content_steps.h"
#include "core/seal/verification/judged_signature.h"
#include "core/seal/verification/signature_steps.h"
#include "core/seal/verification/step_list.h"

namespace panel_dossier {

namespace {

std::string opened(QPDF& pdf, const std::string& bytes) {
  pdf.setSuppressWarnings(true);
  // A damaged file is refused, not repaired: the repaired one is not what was signed.
  pdf.setAttemptRecovery(false);
  pdf.processMemoryFile("dossier", bytes.data(), bytes.size());
  return "PDF " + pdf.getPDFVersion() + ", " + std::to_string(pdf.getAllPages().size()) + " pages";
}

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
  return least;
}

Verification verify_dossier(const std::filesystem::path& file, const std::filesystem::path& schema_dir,
                            const TrustSources& sources) {
  const TrustStore trust(sources);
  const std::string bytes = read_bytes(file);
  StepList steps;
  Verification verification;
  QPDF pdf;
  SignatureFacts facts;
  AttachedContent content;
  content.schema_dir = schema_dir;
  content.project_dir = std::filesystem::absolute(file).parent_path();
  if (steps.run("the file opens", [&] { return opened(pdf, bytes); }) && steps.run("it has one signature", [&] {
        facts = read_signature(pdf, bytes);
        return "dated " + facts.date;
      })) {
    const std::optional<CmsParts> parts = add_signature_steps(steps, bytes, facts);
    if (parts) {
      content.for_issue = !is_demonstration(read_certificate(parts->certificates.at(0)).get());
      verification.for_issue = content.for_issue;
      VerifiedSignature signature;
      signature.role = "author";
      if (steps.run("signer, time and trust can be judged", [&] {
            signature.claimed_time_utc = iso_from_pdf_date(facts.date);
            judge_signature(signature, *parts, trust, {});
            return "SHA-256 of the certificate " + signature.fingerprint;
          })) {
        verification.signatures.push_back(std::move(signature));
      }
    }
    if (steps.run("the attachments can be read", [&] {
          content.attachments = read_attachments(pdf);
          content.xmp = read_metadata(pdf);
          return std::to_string(content.attachments.size()) + " files";
        })) {
      verification.volume = volume_of(content.xmp);
      if (verification.volume.empty()) {
        verification.incomplete = add_content_steps(steps, content).build.incomplete;
      } else {
        steps.run("its dossier names it", [&] { return named_by_dossier(std::filesystem::absolute(file), bytes); });
      }
      const auto volumes = content.attachments.find(std::string(kVolumesAttachment));
      if (volumes != content.attachments.end()) {
        steps.run("the volumes are those of this dossier",
                  [&] { return volumes_unchanged(volumes->second, content.project_dir); });
      }
    }
  }
  verification.changes = {Answer::holds, "nothing was added after signing"};
  verification.steps = steps.take();
  return verification;
}

}  // namespace panel_dossier
