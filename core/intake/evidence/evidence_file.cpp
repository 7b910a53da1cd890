#include "core/intake/evidence/evidence_file.h"

#include <stdexcept>
#include <string>

#include "core/api/support/project_file.h"
#include "core/intake/document/sha256.h"
#include "core/intake/evidence/evidence_content.h"

namespace panel_dossier {

namespace {

/// Holds what is said of the document against the content of its file.
void compare_content(Evidence& document, const EvidenceContent& content) {
  document.status = content.status;
  const auto& kinds = content.kinds;
  if (document.kind == EvidenceKind::not_stated) {
    if (!kinds.empty()) document.kind = kinds.front();
  } else if (!kinds.empty() && document.kind != EvidenceKind::other && document.kind != kinds.front()) {
    // Further down a text may cite documents of any kind; what it is headed with is what it is.
    document.faults.push_back("its kind is stated as '" + std::string(to_string(document.kind)) +
                              "', and its text says '" + std::string(to_string(kinds.front())) + "'");
  }
  // Whoever writes down the hash of a scan has looked at it.
  if (document.sha256.empty() && content.status == EvidenceStatus::present && !content.number_is_read) {
    document.faults.push_back("its pages hold no words that can be read, so that they name number '" + document.number +
                              "' is not seen: who has read them gives the file's sha256 (evidence/evidence.csv)");
  }
}

void compare_hash(Evidence& document, const std::filesystem::path& file) {
  if (document.sha256.empty()) return;
  try {
    const std::string found = to_hex(sha256_file(file));
    if (found != document.sha256) {
      document.faults.push_back("the SHA-256 of its file is " + found + ", and the register says " + document.sha256);
    }
  } catch (const std::runtime_error&) {
    document.status = EvidenceStatus::unreadable;
  }
}

}  // namespace

void look_into_document(Evidence& document, const std::filesystem::path& project_dir) {
  if (document.number.empty()) document.number = document.id;
  if (!document.issued.empty() && !document.expires.empty() && document.expires < document.issued) {
    document.faults.push_back("it expires on " + document.expires + ", before it was issued on " + document.issued);
  }
  const std::filesystem::path folder = document.folder.empty() ? project_dir : std::filesystem::path(document.folder);
  document.status = document.location.empty() ? EvidenceStatus::missing : find_evidence_file(folder, document.location);
  if (document.status != EvidenceStatus::present) return;
  const std::filesystem::path file = folder / document.location;
  compare_content(document, read_evidence_content(file, document.number));
  compare_hash(document, file);
}

}  // namespace panel_dossier
