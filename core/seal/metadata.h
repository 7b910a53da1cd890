// The XMP metadata of a dossier: written by finish, read back by verify.
#pragma once

#include <string>
#include <string_view>

#include "core/trace/results_document.h"

namespace panel_dossier {

inline constexpr std::string_view kProducer = "panel-dossier";

/// `Panel dossier: PROJECT`.
std::string dossier_title(const ResultsDocument& results);

/// An XMP packet (ISO 16684-1) with title, dates, producer and, in a namespace of our own, the hash tree's root, the
/// hash of the export and whether the dossier is signed for issue. Throws std::runtime_error for a malformed time.
std::string xmp_packet(const ResultsDocument& results);

/// The hash tree's root that a packet states; empty when it states none.
std::string hash_tree_root_of(std::string_view xmp);

}  // namespace panel_dossier
