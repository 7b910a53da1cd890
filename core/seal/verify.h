// Verification of a signed dossier from the PDF alone.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace panel_dossier {

struct VerificationStep {
  std::string what;  ///< for example `the signature covers the whole file`
  bool holds = false;
  std::string detail;  ///< what was found; when it does not hold, what that means and what to do
};

struct Verification {
  std::vector<VerificationStep> steps;
  bool for_issue = false;  ///< signed with another key than the demonstration key
  std::string volume;  ///< title where the file is a volume of a dossier: only the dossier itself proves its figures

  bool holds() const;
};

/// Recomputes everything: signature and ByteRange, signing certificate attribute, attachments, the panel hashes from
/// the attached export, the finding hashes from the attached results.json, the hash tree and its root in the metadata.
/// Throws std::runtime_error only when the file cannot be read at all.
Verification verify_dossier(const std::filesystem::path& file, const std::filesystem::path& schema_dir);

}  // namespace panel_dossier
