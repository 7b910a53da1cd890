// The steps of verification that concern what is attached to a dossier. Private to the seal stage.
#pragma once

#include <filesystem>
#include <map>
#include <string>

#include "core/seal/step_list.h"

namespace panel_dossier {

struct AttachedContent {
  std::map<std::string, std::string> attachments;  ///< by name
  std::string xmp;
  bool for_issue = false;             ///< what the certificate says
  std::filesystem::path schema_dir;   ///< holds the XSD of the accepted export
  std::filesystem::path project_dir;  ///< where evidence would lie; its presence changes no hash
};

/// Adds a step each for: results.json, the export, the settings, the panels' data hashes, the findings' hashes, the
/// root of the hash tree, and the mark of issue. Stops at the first of the first two that does not hold.
void add_content_steps(StepList& steps, const AttachedContent& content);

}  // namespace panel_dossier
