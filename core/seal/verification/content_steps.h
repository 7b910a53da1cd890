// Whether what is attached to a dossier belongs together: results, export, settings, hashes, volumes. Private to the
// seal stage.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>

#include "core/seal/verification/step_list.h"
#include "core/trace/results_document.h"

class QPDF;

namespace panel_dossier {

/// What is attached to a dossier.
struct AttachedContent {
  std::map<std::string, std::string> attachments;  ///< by name
  std::string xmp;
  bool for_issue = false;             ///< what the certificate says
  std::filesystem::path schema_dir;   ///< holds the XSD of the accepted export
  std::filesystem::path project_dir;  ///< where evidence would lie; its presence changes no hash
  std::filesystem::path file = {};    ///< the dossier itself
  std::string panel = {};             ///< mark or GlobalId of the one that is to be proved by itself; empty: none
};

/// Attached files by name. Throws std::runtime_error or what QPDF throws when one cannot be read.
std::map<std::string, std::string> read_attachments(QPDF& pdf);

/// The XMP metadata of the document; empty when there is none.
std::string read_metadata(QPDF& pdf);

/// Adds a step each for: results.json, the export, the settings, the panels' data hashes, the derivations' and
/// the findings' hashes, the root of the hash tree, and the mark of issue. Stops at the first of the first two that
/// does not hold. Returns what results.json holds; nothing where it cannot be read.
ResultsDocument add_content_steps(StepList& steps, const AttachedContent& content);

/// A volume proves nothing by itself: the dossier beside it names its hash. Returns what was found; throws
/// std::runtime_error when it is not so.
std::string named_by_dossier(const std::filesystem::path& volume, std::string_view bytes);

/// Hashes of the volumes that the attached list names, by file name. Throws std::runtime_error for a list that names
/// none or a file elsewhere.
std::map<std::string, HexDigest> volumes_named(const std::string& list);

/// The volumes that the list (volumes.csv) names lie in the folder, unchanged. Returns and throws alike.
std::string volumes_unchanged(const std::string& list, const std::filesystem::path& folder);

}  // namespace panel_dossier
