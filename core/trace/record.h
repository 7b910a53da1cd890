// Makes the record of one build: results with the hashes of everything they rest on.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/api/model/project.h"
#include "core/intake/claims/table_confirmations.h"
#include "core/pipeline/run.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

/// What the caller knows of the build. The views must outlive the call only.
struct BuildFacts {
  std::string program_version;
  std::string time_utc;  ///< ISO 8601, for example 2026-11-25T02:00:00Z
  std::string export_name;
  std::string export_schema;      ///< IntakeResult::schema_version
  std::string_view export_bytes;  ///< exactly as read
  HexDigest export_sha256 = {};   ///< of `export_bytes`; worked out when empty
  std::optional<std::string_view> settings_bytes;
  /// Files that the settings name and the findings rest on: path relative to the settings, and bytes.
  std::vector<std::pair<std::string, std::string_view>> settings_files;
  std::vector<std::string> confirmed_values;           ///< Inputs::confirmed_values
  std::vector<TableConfirmation> table_confirmations;  ///< rows of data tables that somebody confirmed
  SettingValues settings;                              ///< of the settings file, as it states them
  IssueMark issue;
  bool signed_for_issue = false;
  /// `data_hashes` of the project as the export alone gives it; worked out from the project at hand when empty.
  std::vector<HexDigest> data_hashes = {};
  std::filesystem::path project_dir;  ///< evidence is hashed below this folder and never outside it
};

/// Hash of the canonical data of each panel, in the project's order. Throws std::runtime_error when a panel holds a
/// number that is not finite or text that is not UTF-8, naming the panel.
std::vector<HexDigest> data_hashes(const Project& project);

/// Fills every hash: export, settings and files they name, evidence, plugins with their tables and declarations
/// (`*.csv`, `*.json`), panels, and the hash tree's root. `results` must be of this `project`. A present evidence file,
/// plugin or data table that cannot be read leaves an empty hash, is named in `failures`, and makes the build
/// incomplete. Throws std::runtime_error when a panel holds a number that is not finite or text that is not UTF-8,
/// naming the panel. Takes the findings out of `results`: move it in.
ResultsDocument make_results_document(const Project& project, Results results, const BuildFacts& facts);

/// The leaf hash of a panel, from its data hash and its findings. Throws as canonical_findings does, and
/// std::runtime_error when `data_hash` is no digest.
HexDigest panel_hash(const HexDigest& data_hash, const std::vector<RecordedFinding>& findings);

/// Leaf of the findings of the project as a whole.
HexDigest project_hash(const std::vector<RecordedFinding>& project_findings);

/// Leaves of the hash tree as the document states them: of the panels in their order, then of the project's findings,
/// which results from before they stood in the tree have none of. Throws std::runtime_error for a hash that is none.
std::vector<Digest> hash_tree_leaves(const ResultsDocument& document);

/// Root over those leaves. Throws as they do.
HexDigest hash_tree_root(const ResultsDocument& document);

}  // namespace panel_dossier
