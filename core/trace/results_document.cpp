#include "core/trace/results_document.h"

#include <algorithm>
#include <exception>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include "core/pipeline/record/finding_json.h"
#include "core/pipeline/record/json.h"

namespace panel_dossier {

namespace {

using nlohmann::ordered_json;
using Source = CheckInput::Source;

constexpr CheckKind kKinds[] = {CheckKind::figure, CheckKind::limit, CheckKind::classification, CheckKind::evidence};
constexpr CheckScope kScopes[] = {CheckScope::panels, CheckScope::project, CheckScope::panels_and_project};
constexpr Source kSources[] = {Source::property, Source::setting, Source::table, Source::model};

constexpr auto kDeclaredWord = [](auto enumerator) { return to_string(enumerator); };

std::string_view source_word(Source source) {
  switch (source) {
    case Source::property: return "property";
    case Source::setting: return "setting";
    case Source::model: return "model";
    case Source::table: break;
  }
  return "data table";
}

ordered_json check_input_to_json(const CheckInput& input) {
  return {{"source", source_word(input.source)}, {"name", input.name}, {"optional", input.optional}};
}

CheckInput check_input_from_json(const ordered_json& json) {
  return {word_member(json, "source", kSources, source_word), member<std::string>(json, "name"),
          member<bool>(json, "optional")};
}

ordered_json check_to_json(const CheckDeclaration& check) {
  return {{"id", check.id},
          {"title", check.title},
          {"project_title", check.project_title},
          {"sentence", check.sentence},
          {"clause", check.clause},
          {"other_clauses", check.other_clauses},
          {"units", check.units},
          {"kind", to_string(check.kind)},
          {"scope", to_string(check.scope)},
          {"inputs", json_array(check.inputs, check_input_to_json)},
          {"limits", check.limits},
          {"role", check.role},
          {"for_workshop", check.for_workshop}};
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

ordered_json not_applicable_to_json(const NotApplicable& absent) {
  return {{"check", absent.check}, {"reason", absent.reason}};
}

NotApplicable not_applicable_from_json(const ordered_json& json) {
  return {member<std::string>(json, "check"), member<std::string>(json, "reason")};
}

constexpr const char* kFormat = "panel-dossier-results";
constexpr int kVersion = 2;

ordered_json file_to_json(const HashedFile& file) {
  return {{"name", file.name}, {"id", file.id}, {"sha256", file.sha256}};
}

HashedFile file_from_json(const ordered_json& json) {
  return {member<std::string>(json, "name"), member<std::string>(json, "id"), member<std::string>(json, "sha256")};
}

ordered_json plugin_to_json(const PluginSummary& plugin) {
  return {{"id", plugin.id},
          {"title", plugin.title},
          {"version", plugin.version},
          {"caution", plugin.caution},
          {"standards", plugin.standards},
          {"sha256", plugin.sha256},
          {"data_tables", json_array(plugin.data_tables, file_to_json)},
          {"checks", json_array(plugin.checks, check_to_json)}};
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

ordered_json settings_to_json(const SettingValues& settings) {
  auto json = ordered_json::object();
  for (const auto& [key, value] : settings) {
    json[key] = std::visit([](const auto& held) { return ordered_json(held); }, value);
  }
  return json;
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

ordered_json issue_to_json(const IssueMark& issue) {
  return {{"id", issue.id}, {"status", issue.status}};
}

ordered_json build_to_json(const BuildSummary& build) {
  ordered_json json{{"program_version", build.program_version},
                    {"time_utc", build.time_utc},
                    {"export_name", build.export_name},
                    {"export_schema", build.export_schema},
                    {"export_sha256", build.export_sha256},
                    {"settings_sha256", build.settings_sha256},
                    {"settings_files", json_array(build.settings_files, file_to_json)},
                    {"hash_tree_root", build.hash_tree_root},
                    {"signed_for_issue", build.signed_for_issue},
                    {"issue", issue_to_json(build.issue)},
                    {"incomplete", build.incomplete},
                    {"failures", build.failures},
                    {"warnings", build.warnings},
                    {"withheld", build.withheld},
                    {"confirmed", build.confirmed},
                    {"unconfirmed", build.unconfirmed},
                    {"plugins", json_array(build.plugins, plugin_to_json)},
                    {"evidence", json_array(build.evidence, file_to_json)},
                    {"outputs", build.outputs}};
  if (build.settings) json["settings"] = settings_to_json(*build.settings);
  return json;
}

/// What results from before these members were written do without.
void read_later_members(const ordered_json& json, BuildSummary& build) {
  if (json.contains("issue")) {
    const auto issue = member<ordered_json>(json, "issue");
    build.issue = {member<std::string>(issue, "id"), member<std::string>(issue, "status")};
  }
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

ordered_json project_to_json(const ProjectSummary& project) {
  return {{"global_id", project.global_id}, {"name", project.name}, {"description", project.description},
          {"phase", project.phase},         {"site", project.site}, {"buildings", project.buildings}};
}

ProjectSummary project_from_json(const ordered_json& json) {
  return {member<std::string>(json, "global_id"),   member<std::string>(json, "name"),
          member<std::string>(json, "description"), member<std::string>(json, "phase"),
          member<std::string>(json, "site"),        member<std::vector<std::string>>(json, "buildings")};
}

ordered_json panel_to_json(const PanelSummary& panel) {
  return {{"global_id", panel.global_id},
          {"mark", panel.mark},
          {"type", panel.type},
          {"storey", panel.storey},
          {"data_hash", panel.data_hash},
          {"hash", panel.hash},
          {"findings", json_array(panel.findings, finding_to_json)},
          {"not_applicable", json_array(panel.not_applicable, not_applicable_to_json)}};
}

/// The derivations of a results.json, for the findings that name them.
class DerivationsRead {
 public:
  /// Throws std::runtime_error naming the derivation and what is wrong with it.
  explicit DerivationsRead(const ordered_json& document) {
    const auto member = document.find("derivations");
    if (member == document.end() || !member->is_object()) {
      throw std::runtime_error("member 'derivations' is missing or no object");
    }
    for (const auto& [hash, json] : member->items()) {
      try {
        entries_[hash].derivation = std::make_shared<const Derivation>(derivation_from_json(json, hash));
      } catch (const std::runtime_error& error) {
        throw std::runtime_error("derivation '" + hash + "': " + error.what());
      }
    }
  }

  std::shared_ptr<const Derivation> of(const HexDigest& hash) {
    const auto found = entries_.find(hash);
    if (found == entries_.end()) throw std::runtime_error("there is no derivation '" + hash + "'");
    found->second.is_used = true;
    return found->second.derivation;
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

  std::map<HexDigest, Entry> entries_;
};

PanelSummary panel_from_json(const ordered_json& json, const DerivationOfHash& derivation_of) {
  const auto mark = member<std::string>(json, "mark");
  try {
    return {member<std::string>(json, "global_id"),
            mark,
            member<std::string>(json, "type"),
            member<std::string>(json, "storey"),
            member<std::string>(json, "data_hash"),
            member<std::string>(json, "hash"),
            members(json, "findings",
                    [&](const ordered_json& finding) { return finding_from_json(finding, derivation_of); }),
            members(json, "not_applicable", not_applicable_from_json)};
  } catch (const std::runtime_error& error) {
    throw std::runtime_error("panel '" + mark + "': " + error.what());
  }
}

ordered_json batch_to_json(const BatchSummary& batch) {
  return {{"batch", batch.reference},
          {"material", batch.material},
          {"kinds", batch.kinds},
          {"deliveries", batch.deliveries},
          {"panels", batch.marks}};
}

BatchSummary batch_from_json(const ordered_json& json) {
  using Words = std::vector<std::string>;
  return {member<std::string>(json, "batch"), member<std::string>(json, "material"), member<Words>(json, "kinds"),
          member<Words>(json, "deliveries"), member<Words>(json, "panels")};
}

ResultsDocument document_from_json(const ordered_json& json) {
  if (member<std::string>(json, "format") != kFormat) {
    throw std::runtime_error(std::string("member 'format' is not '") + kFormat + "'");
  }
  if (const int version = member<int>(json, "version"); version != kVersion) {
    throw std::runtime_error("version " + std::to_string(version) + " is not version " + std::to_string(kVersion) +
                             ", which this program reads; use the program that wrote it");
  }
  DerivationsRead derivations(json);
  const DerivationOfHash derivation_of = [&](const HexDigest& hash) { return derivations.of(hash); };
  ResultsDocument document{
      project_from_json(member<ordered_json>(json, "project")),
      build_from_json(member<ordered_json>(json, "build")),
      members(json, "panels", [&](const ordered_json& panel) { return panel_from_json(panel, derivation_of); }),
      members(json, "project_findings",
              [&](const ordered_json& finding) { return finding_from_json(finding, derivation_of); }),
      members(json, "project_not_applicable", not_applicable_from_json),
      members(json, "batches", batch_from_json)};
  derivations.require_all_used();
  return document;
}

/// Refuses a second derivation of one hash: the JSON that comes of the text keeps one of the two. A pass of its own,
/// for the parser with a callback looks at all that a list holds after each of its items.
class DuplicateDerivations final : public nlohmann::json_sax<ordered_json> {
 public:
  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(number_integer_t) override { return true; }
  bool number_unsigned(number_unsigned_t) override { return true; }
  bool number_float(number_float_t, const string_t&) override { return true; }
  bool string(string_t&) override { return true; }
  bool binary(binary_t&) override { return true; }
  bool start_object(std::size_t) override { return open(); }
  bool end_object() override { return close(); }
  bool start_array(std::size_t) override { return open(); }
  bool end_array() override { return close(); }

  bool key(string_t& name) override {
    if (depth_ == 1) in_derivations_ = name == "derivations";
    if (depth_ == 2 && in_derivations_ && !seen_.insert(name).second) {
      throw std::runtime_error("derivation '" + name + "' stands twice");
    }
    return true;
  }

  bool parse_error(std::size_t, const std::string&, const nlohmann::json::exception&) override { return false; }

 private:
  int depth_ = 0;
  bool in_derivations_ = false;
  std::set<std::string> seen_;

  bool open() {
    ++depth_;
    return true;
  }

  bool close() {
    --depth_;
    return true;
  }
};

}  // namespace

const CheckDeclaration* check_of_role(const BuildSummary& build, std::string_view role) {
  for (const PluginSummary& plugin : build.plugins) {
    for (const CheckDeclaration& check : plugin.checks) {
      if (check.role == role) return &check;
    }
  }
  return nullptr;
}

const RecordedFinding* finding_of_role(const BuildSummary& build, const std::vector<RecordedFinding>& findings,
                                       std::string_view role) {
  const CheckDeclaration* check = check_of_role(build, role);
  if (check == nullptr) return nullptr;
  const auto found = std::find_if(findings.begin(), findings.end(),
                                  [check](const RecordedFinding& finding) { return finding.check == check->id; });
  return found == findings.end() ? nullptr : &*found;
}

std::vector<const Derivation*> derivations_of(const ResultsDocument& document) {
  std::map<std::string_view, const Derivation*> by_hash;
  const auto take = [&](const std::vector<RecordedFinding>& findings) {
    for (const RecordedFinding& finding : findings) by_hash[finding.derivation->hash] = finding.derivation.get();
  };
  for (const PanelSummary& panel : document.panels) take(panel.findings);
  take(document.project_findings);
  std::vector<const Derivation*> derivations;
  derivations.reserve(by_hash.size());
  for (const auto& [hash, derivation] : by_hash) derivations.push_back(derivation);
  return derivations;
}

std::string to_json(const ResultsDocument& document) {
  const std::vector<const Derivation*> derivations = derivations_of(document);
  ObjectWriter writer;
  writer.member("format", kFormat);
  writer.member("version", kVersion);
  writer.member("project", project_to_json(document.project));
  writer.member("build", build_to_json(document.build));
  writer.list("panels", document.panels.size(), [&](std::size_t i) { return panel_to_json(document.panels[i]); });
  writer.list("project_findings", document.project_findings.size(),
              [&](std::size_t i) { return finding_to_json(document.project_findings[i]); });
  writer.list("project_not_applicable", document.project_not_applicable.size(),
              [&](std::size_t i) { return not_applicable_to_json(document.project_not_applicable[i]); });
  writer.list("batches", document.batches.size(), [&](std::size_t i) { return batch_to_json(document.batches[i]); });
  writer.object("derivations", derivations.size(),
                [&](std::size_t i) { return std::pair(derivations[i]->hash, derivation_to_json(*derivations[i])); });
  return writer.take();
}

ResultsDocument results_from_json(std::string_view text) {
  try {
    const auto json = ordered_json::parse(text);
    DuplicateDerivations duplicates;
    ordered_json::sax_parse(text, &duplicates);
    return document_from_json(json);
  } catch (const nlohmann::json::exception& error) {
    throw std::runtime_error(std::string("not a results.json: ") + error.what());
  } catch (const std::runtime_error& error) {
    throw std::runtime_error(std::string("not a results.json that this program reads: ") + error.what());
  }
}

}  // namespace panel_dossier
