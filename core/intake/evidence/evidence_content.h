// What the file behind a document holds: text, pages or nothing, and what its text says that it is.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/project.h"

namespace panel_dossier {

struct EvidenceContent {
  EvidenceStatus status = EvidenceStatus::unreadable;  ///< present, empty, unreadable or unnamed
  std::vector<EvidenceKind> kinds = {};  ///< that the text names, in the order of their first naming; none of pages
  /// False of pages whose words nobody can read here, such as a scan: they may be of another document.
  bool number_is_read = true;
};

/// Reads the file as a document with this number. Text is UTF-8 and names its number: in either case of letters, with
/// white space for white space, and not as a part of a longer number. So does a PDF whose pages hold text; there blanks
/// inside the number do not count, for a PDF sets words in pieces. A PDF without pages, or with nothing on them, is
/// unreadable. Of a scan, a picture (JPEG, PNG, TIFF) and an office document (ZIP) the number is not read.
EvidenceContent read_evidence_content(const std::filesystem::path& file, std::string_view number);

/// As `read_evidence_content`, of the bytes of a file with this extension (`.pdf`; with its dot, may be empty).
EvidenceContent evidence_content(std::string_view bytes, std::string_view extension, std::string_view number);

}  // namespace panel_dossier
