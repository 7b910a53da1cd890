#include "core/seal/verify.h"

#include <algorithm>
#include <qpdf/QPDF.hh>

#include "core/seal/content_steps.h"
#include "core/seal/file_bytes.h"
#include "core/seal/signature_steps.h"
#include "core/seal/signed_pdf.h"
#include "core/seal/step_list.h"

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

Verification verify_dossier(const std::filesystem::path& file, const std::filesystem::path& schema_dir) {
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
    verification.for_issue = content.for_issue = add_signature_steps(steps, bytes, facts);
    if (steps.run("the attachments can be read", [&] {
          content.attachments = read_attachments(pdf);
          content.xmp = read_metadata(pdf);
          return std::to_string(content.attachments.size()) + " files";
        })) {
      add_content_steps(steps, content);
    }
  }
  verification.steps = steps.take();
  return verification;
}

}  // namespace panel_dossier
