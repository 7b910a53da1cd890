// One build as data: what results.json holds, what the dossier prints, what trace, compare and verify read back.
#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"
#include "core/pipeline/record/recorded_finding.h"

namespace panel_dossier {

struct HashedFile {
  std::string name;  ///< file name, or path relative to the project folder for evidence
  std::string id;    ///< evidence id, plugin id, or empty
  HexDigest sha256;  ///< empty when the file is missing or was refused
};

struct PluginSummary {
  std::string id;
  std::string title;
  std::string version;
  std::string caution;
  std::vector<std::string> standards;
  HexDigest sha256;                      ///< of the shared object
  std::vector<HashedFile> data_tables;   ///< tables and declarations of its data folder, by name
  std::vector<CheckDeclaration> checks;  ///< in the plugin's order
};

/// What makes a build an issue: one that leaves the office. Both empty for a night's build.
struct IssueMark {
  std::string id;      ///< `P03`
  std::string status;  ///< `for construction`; may be empty

  bool is_issue() const { return !id.empty(); }
};

/// Values of the settings file by dotted key, as Settings::all gives them.
using SettingValues = std::map<std::string, Settings::Value, std::less<>>;

struct BuildSummary {
  std::string program_version;
  std::string time_utc;  ///< ISO 8601, for example 2026-11-25T02:00:00Z
  std::string export_name;
  std::string export_schema;
  HexDigest export_sha256;
  HexDigest settings_sha256;  ///< empty when no settings file was given
  /// As the file states them, whether or not a check may use them; none in results from before they were kept.
  std::optional<SettingValues> settings;
  std::vector<HashedFile> settings_files;  ///< that the settings name; relative to their folder, without id
  HexDigest project_hash;  ///< leaf of the project's findings; empty in results from before they had one
  HexDigest hash_tree_root;
  bool signed_for_issue = false;  ///< false with the demonstration key
  IssueMark issue;
  bool incomplete = false;
  std::vector<std::string> failures;  ///< plugin and environment failures
  std::vector<std::string> warnings;  ///< of the run itself, such as a clock that went backwards
  /// Claims of the inputs that no check may use: implausible ones, and those that another source contradicts.
  std::vector<std::string> withheld;
  /// Values let through although unusual or contradicted, each with who confirmed it and why.
  std::vector<std::string> confirmed;
  /// Rows of data tables, recalled without the text at hand and confirmed by nobody, that a pass or a fail rests on.
  std::vector<std::string> unconfirmed;
  std::vector<PluginSummary> plugins;
  std::vector<HashedFile> evidence;
  std::vector<std::string> outputs;  ///< names of the tables that plugins wrote
};

struct ProjectSummary {
  std::string global_id;
  std::string name;
  std::string description;
  std::string phase;
  std::string site;
  std::vector<std::string> buildings;
};

struct PanelSummary {
  std::string global_id;
  std::string mark;
  std::string type;
  std::string storey;   ///< name
  HexDigest data_hash;  ///< of the panel's canonical data
  HexDigest hash;       ///< leaf of the hash tree: over the canonical data and the findings
  std::vector<RecordedFinding> findings;
  std::vector<NotApplicable> not_applicable = {};
};

/// Material of one batch, and the panels that hold some of it.
struct BatchSummary {
  std::string reference;
  std::string material;                 ///< name; empty where nobody says
  std::vector<std::string> kinds;       ///< of parts cut from it
  std::vector<std::string> deliveries;  ///< numbers of delivery notes
  std::vector<std::string> marks;       ///< of the panels, in their order
};

struct ResultsDocument {
  ProjectSummary project;
  BuildSummary build;
  std::vector<PanelSummary> panels;  ///< in the order of Project::panels
  std::vector<RecordedFinding> project_findings;
  std::vector<NotApplicable> project_not_applicable;
  std::vector<BatchSummary> batches = {};  ///< in the order of Project::batches
};

/// The members `format` and `version` of results.json.
inline constexpr const char* kResultsFormat = "panel-dossier-results";
inline constexpr int kResultsVersion = 2;

/// The word that stands for it there.
std::string_view source_word(CheckInput::Source source);

/// The declared check that claims the role; null when no plugin of the build has one.
const CheckDeclaration* check_of_role(const BuildSummary& build, std::string_view role);

/// The finding, among those of a panel or of the project, of the check that claims the role; null when there is none.
const RecordedFinding* finding_of_role(const BuildSummary& build, const std::vector<RecordedFinding>& findings,
                                       std::string_view role);

/// Every derivation of the panels' and the project's findings once, by hash. They live as long as the findings.
std::vector<const Derivation*> derivations_of(const ResultsDocument& document);

/// The results.json text: UTF-8, two-space indent, what holds no list on one line, keys in a fixed order, numbers in
/// their shortest exact form, ends with a newline. Same document, same bytes.
std::string to_json(const ResultsDocument& document);
/// The same text piece by piece: that of a large project is more than the rest of a build takes.
void write_json(const ResultsDocument& document, const std::function<void(std::string_view)>& sink);

}  // namespace panel_dossier
