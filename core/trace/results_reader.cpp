#include "core/trace/results_reader.h"

#include <cerrno>
#include <cstring>
#include <fstream>
#include <functional>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "core/pipeline/record/finding_json.h"
#include "core/pipeline/record/json.h"
#include "core/pipeline/record/origin_texts.h"
#include "core/trace/json_members.h"

namespace panel_dossier {

namespace {

using nlohmann::ordered_json;
using Source = CheckInput::Source;

constexpr CheckKind kKinds[] = {CheckKind::figure, CheckKind::limit, CheckKind::classification, CheckKind::evidence};
constexpr CheckScope kScopes[] = {CheckScope::panels, CheckScope::project, CheckScope::panels_and_project};
constexpr Source kSources[] = {Source::property, Source::setting, Source::table, Source::model};

constexpr auto kDeclaredWord = [](auto enumerator) { return to_string(enumerator); };

CheckInput check_input_from_json(const ordered_json& json) {
  return {word_member(json, "source", kSources, source_word), member<std::string>(json, "name"),
          member<bool>(json, "optional")};
}

CheckDeclaration check_from_json(const ordered_json& json) {
  using Texts = std::vector<std::string>;
  return {.id = member<std::string>(json, "id"),
          .title = member<std::string>(json, "title"),
          .project_title = member<std::string>(json, "project_title"),
          .sentence = member<std::string>(json, "sentence"),
          .clause = member<std::string>(json, "clause"),
          .other_clauses = member<Texts>(json, "other_clauses"),
          .units = member<Texts>(json, "units"),
          .kind = word_member(json, "kind", kKinds, kDeclaredWord),
          .scope = word_member(json, "scope", kScopes, kDeclaredWord),
          .inputs = members(json, "inputs", check_input_from_json),
          .limits = member<Texts>(json, "limits"),
          .role = member<std::string>(json, "role"),
          // Results from before workshop.pdf do not say it.
          .for_workshop = json.contains("for_workshop") && member<bool>(json, "for_workshop")};
}

NotApplicable not_applicable_from_json(const ordered_json& json) {
  return {member<std::string>(json, "check"), member<std::string>(json, "reason")};
}

HashedFile file_from_json(const ordered_json& json) {
  return {member<std::string>(json, "name"), member<std::string>(json, "id"), member<std::string>(json, "sha256")};
}

PluginSummary plugin_from_json(const ordered_json& json) {
  PluginSummary plugin;
  plugin.id = member<std::string>(json, "id");
  plugin.title = member<std::string>(json, "title");
  plugin.version = member<std::string>(json, "version");
  plugin.caution = member<std::string>(json, "caution");
  plugin.standards = member<std::vector<std::string>>(json, "standards");
  plugin.sha256 = member<std::string>(json, "sha256");
  plugin.data_tables = members(json, "data_tables", file_from_json);
  plugin.checks = members(json, "checks", check_from_json);
  return plugin;
}

SettingValues settings_from_json(const ordered_json& json) {
  if (!json.is_object()) throw std::runtime_error("member 'settings' is no object");
  SettingValues settings;
  for (const auto& [key, value] : json.items()) {
    if (value.is_boolean()) {
      settings[key] = value.get<bool>();
    } else if (value.is_number()) {
      settings[key] = value.get<double>();
    } else if (value.is_string()) {
      settings[key] = value.get<std::string>();
    } else {
      throw std::runtime_error("setting '" + key + "' is no number, logical value or text");
    }
  }
  return settings;
}

/// What results from before these members were written do without.
void read_later_members(const ordered_json& json, BuildSummary& build) {
  if (json.contains("issue")) {
    const auto issue = member<ordered_json>(json, "issue");
    build.issue = {member<std::string>(issue, "id"), member<std::string>(issue, "status")};
  }
  if (json.contains("project_hash")) build.project_hash = member<std::string>(json, "project_hash");
  if (json.contains("warnings")) build.warnings = member<std::vector<std::string>>(json, "warnings");
  if (json.contains("settings")) build.settings = settings_from_json(json.at("settings"));
}

BuildSummary build_from_json(const ordered_json& json) {
  BuildSummary build;
  build.program_version = member<std::string>(json, "program_version");
  build.time_utc = member<std::string>(json, "time_utc");
  build.export_name = member<std::string>(json, "export_name");
  build.export_schema = member<std::string>(json, "export_schema");
  build.export_sha256 = member<std::string>(json, "export_sha256");
  build.settings_sha256 = member<std::string>(json, "settings_sha256");
  build.settings_files = members(json, "settings_files", file_from_json);
  build.hash_tree_root = member<std::string>(json, "hash_tree_root");
  build.signed_for_issue = member<bool>(json, "signed_for_issue");
  build.incomplete = member<bool>(json, "incomplete");
  build.failures = member<std::vector<std::string>>(json, "failures");
  build.withheld = member<std::vector<std::string>>(json, "withheld");
  build.confirmed = member<std::vector<std::string>>(json, "confirmed");
  build.unconfirmed = member<std::vector<std::string>>(json, "unconfirmed");
  build.plugins = members(json, "plugins", plugin_from_json);
  build.evidence = members(json, "evidence", file_from_json);
  build.outputs = member<std::vector<std::string>>(json, "outputs");
  read_later_members(json, build);
  return build;
}

ProjectSummary project_from_json(const ordered_json& json) {
  return {member<std::string>(json, "global_id"),   member<std::string>(json, "name"),
          member<std::string>(json, "description"), member<std::string>(json, "phase"),
          member<std::string>(json, "site"),        member<std::vector<std::string>>(json, "buildings")};
}

using DerivationsByHash = std::unordered_map<std::string_view, std::shared_ptr<const Derivation>>;

/// Those of the findings of a document, which must outlive them.
DerivationsByHash derivations_by_hash(const ResultsDocument& document) {
  DerivationsByHash derivations;
  const auto take = [&](const std::vector<RecordedFinding>& findings) {
    for (const RecordedFinding& finding : findings) derivations.emplace(finding.derivation->hash, finding.derivation);
  };
  for (const PanelSummary& panel : document.panels) take(panel.findings);
  take(document.project_findings);
  return derivations;
}

/// The derivations of a results.json, for the findings that name them.
class DerivationsRead {
 public:
  /// Those of `known` are used in place of equal ones.
  explicit DerivationsRead(DerivationsByHash known) : known_(std::move(known)) {}

  /// Throws std::runtime_error naming the derivation and what is wrong with it.
  void add(const std::string& hash, const ordered_json& json) {
    const auto [entry, is_new] = entries_.try_emplace(hash);
    if (!is_new) throw std::runtime_error("derivation '" + hash + "' stands twice");
    try {
      entry->second.derivation = derivation_of(hash, json);
    } catch (const std::runtime_error& error) {
      throw std::runtime_error("derivation '" + hash + "': " + error.what());
    }
  }

  /// Throws as `finding_from_json`.
  RecordedFinding finding(const ordered_json& json) {
    RecordedFinding finding = finding_from_json(json, [this](const HexDigest& hash) { return of(hash); });
    for (Origin& origin : finding.origins) texts_.share(origin);
    return finding;
  }

  /// Throws std::runtime_error naming a derivation that no finding names: no hash of a panel would vouch for it.
  void require_all_used() const {
    for (const auto& [hash, entry] : entries_) {
      if (!entry.is_used) throw std::runtime_error("no finding names derivation '" + hash + "'");
    }
  }

 private:
  struct Entry {
    std::shared_ptr<const Derivation> derivation;
    bool is_used = false;
  };

  DerivationsByHash known_;
  std::map<HexDigest, Entry> entries_;

  OriginTexts texts_;

  std::shared_ptr<const Derivation> of(const HexDigest& hash) {
    const auto found = entries_.find(hash);
    if (found == entries_.end()) throw std::runtime_error("there is no derivation '" + hash + "'");
    found->second.is_used = true;
    return found->second.derivation;
  }

  /// Stated hashes prove nothing: what is taken for the same is the same.
  std::shared_ptr<const Derivation> derivation_of(const std::string& hash, const ordered_json& json) {
    const auto known = known_.find(hash);
    if (known != known_.end() && derivation_to_json(*known->second) == json) return known->second;
    Derivation derivation = derivation_from_json(json, hash);
    for (DerivationInput& input : derivation.inputs) {
      if (input.origin) texts_.share(*input.origin);
    }
    return std::make_shared<const Derivation>(std::move(derivation));
  }
};

PanelSummary panel_from_json(const ordered_json& json, DerivationsRead& derivations) {
  const auto mark = member<std::string>(json, "mark");
  try {
    return {member<std::string>(json, "global_id"),
            mark,
            member<std::string>(json, "type"),
            member<std::string>(json, "storey"),
            member<std::string>(json, "data_hash"),
            member<std::string>(json, "hash"),
            members(json, "findings", [&](const ordered_json& finding) { return derivations.finding(finding); }),
            members(json, "not_applicable", not_applicable_from_json)};
  } catch (const std::runtime_error& error) {
    throw std::runtime_error("panel '" + mark + "': " + error.what());
  }
}

BatchSummary batch_from_json(const ordered_json& json) {
  using Words = std::vector<std::string>;
  return {member<std::string>(json, "batch"), member<std::string>(json, "material"), member<Words>(json, "kinds"),
          member<Words>(json, "deliveries"), member<Words>(json, "panels")};
}

/// Throws std::runtime_error when the members are not those of a results.json that this program reads.
void require_known_version(const ordered_json& json) {
  if (member<std::string>(json, "format") != kResultsFormat) {
    throw std::runtime_error(std::string("member 'format' is not '") + kResultsFormat + "'");
  }
  if (const int version = member<int>(json, "version"); version != kResultsVersion) {
    throw std::runtime_error("version " + std::to_string(version) + " is not version " +
                             std::to_string(kResultsVersion) +
                             ", which this program reads; use the program that wrote it");
  }
}

/// Has a text told to a reader, from its beginning each time.
using Parse = std::function<void(MemberReader& reader)>;

ResultsDocument document_of(const Parse& parse, const ResultsDocument* sharing) {
  auto head = ordered_json::object();
  DerivationsRead derivations(sharing == nullptr ? DerivationsByHash() : derivations_by_hash(*sharing));
  // Findings stand before the derivations that they name, and cannot be read without.
  MemberReader first({{"panels", false, {}},
                      {"derivations", true,
                       [&](const std::string& hash, const ordered_json& derivation) {
                         require_known_version(head);
                         derivations.add(hash, derivation);
                       }}},
                     [&](const std::string& name, ordered_json value) { head[name] = std::move(value); });
  parse(first);
  require_known_version(head);
  first.require_listed();
  ResultsDocument document;
  document.project = project_from_json(member<ordered_json>(head, "project"));
  document.build = build_from_json(member<ordered_json>(head, "build"));
  MemberReader second({{"panels", false,
                        [&](const std::string&, const ordered_json& panel) {
                          document.panels.push_back(panel_from_json(panel, derivations));
                        }},
                       {"derivations", true, {}}},
                      {});
  parse(second);
  document.project_findings =
      members(head, "project_findings", [&](const ordered_json& finding) { return derivations.finding(finding); });
  document.project_not_applicable = members(head, "project_not_applicable", not_applicable_from_json);
  document.batches = members(head, "batches", batch_from_json);
  derivations.require_all_used();
  return document;
}

template <typename Read>
auto in_words_of_results(const Read& read) {
  try {
    return read();
  } catch (const NotJson& error) {
    throw std::runtime_error(std::string("not a results.json: ") + error.what());
  } catch (const nlohmann::json::exception& error) {
    throw std::runtime_error(std::string("not a results.json: ") + error.what());
  } catch (const std::runtime_error& error) {
    throw std::runtime_error(std::string("not a results.json that this program reads: ") + error.what());
  }
}

std::ifstream opened(const std::filesystem::path& file) {
  if (std::filesystem::exists(file) && !std::filesystem::is_regular_file(file)) {
    throw std::runtime_error("'" + file.string() + "' is not a file but a folder, pipe or device; give a file");
  }
  std::ifstream stream(file, std::ios::binary);
  if (!stream) throw std::runtime_error("cannot read '" + file.string() + "': " + std::strerror(errno));
  return stream;
}

}  // namespace

ResultsDocument results_from_json(std::string_view text) {
  return in_words_of_results(
      [&] { return document_of([&](MemberReader& reader) { ordered_json::sax_parse(text, &reader); }, nullptr); });
}

ResultsDocument results_from_file(const std::filesystem::path& file, const ResultsDocument* sharing) {
  std::ifstream stream = opened(file);
  return in_words_of_results([&] {
    return document_of(
        [&](MemberReader& reader) {
          stream.clear();
          stream.seekg(0);
          ordered_json::sax_parse(stream, &reader);
        },
        sharing);
  });
}

BuildSummary build_from_file(const std::filesystem::path& file) {
  std::ifstream stream = opened(file);
  return in_words_of_results([&] {
    auto head = ordered_json::object();
    MemberReader reader({{"panels", false, {}}, {"derivations", true, {}}},
                        [&](const std::string& name, ordered_json value) { head[name] = std::move(value); });
    reader.stop_behind("build");  // what follows is nearly all of the file
    ordered_json::sax_parse(stream, &reader);
    require_known_version(head);
    return build_from_json(member<ordered_json>(head, "build"));
  });
}

}  // namespace panel_dossier
