#include "core/trace/results_document.h"

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include "core/pipeline/record/finding_json.h"
#include "core/pipeline/record/json.h"

namespace panel_dossier {

namespace {

using nlohmann::ordered_json;

ordered_json check_input_to_json(const CheckInput& input) {
  return {{"source", source_word(input.source)}, {"name", input.name}, {"optional", input.optional}};
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

ordered_json not_applicable_to_json(const NotApplicable& absent) {
  return {{"check", absent.check}, {"reason", absent.reason}};
}

ordered_json file_to_json(const HashedFile& file) {
  return {{"name", file.name}, {"id", file.id}, {"sha256", file.sha256}};
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

ordered_json settings_to_json(const SettingValues& settings) {
  auto json = ordered_json::object();
  for (const auto& [key, value] : settings) {
    json[key] = std::visit([](const auto& held) { return ordered_json(held); }, value);
  }
  return json;
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
  if (!build.project_hash.empty()) json["project_hash"] = build.project_hash;
  return json;
}

ordered_json project_to_json(const ProjectSummary& project) {
  return {{"global_id", project.global_id}, {"name", project.name}, {"description", project.description},
          {"phase", project.phase},         {"site", project.site}, {"buildings", project.buildings}};
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

ordered_json batch_to_json(const BatchSummary& batch) {
  return {{"batch", batch.reference},
          {"material", batch.material},
          {"kinds", batch.kinds},
          {"deliveries", batch.deliveries},
          {"panels", batch.marks}};
}

}  // namespace

std::string_view source_word(CheckInput::Source source) {
  using Source = CheckInput::Source;
  switch (source) {
    case Source::property: return "property";
    case Source::setting: return "setting";
    case Source::model: return "model";
    case Source::table: break;
  }
  return "data table";
}

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
  std::string text;
  write_json(document, [&text](std::string_view piece) { text += piece; });
  return text;
}

void write_json(const ResultsDocument& document, const TextSink& sink) {
  const std::vector<const Derivation*> derivations = derivations_of(document);
  ObjectWriter writer(sink);
  writer.member("format", kResultsFormat);
  writer.member("version", kResultsVersion);
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
  writer.end();
}

}  // namespace panel_dossier
