#include "core/trace/causes.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <stdexcept>
#include <utility>
#include <variant>

#include "core/pipeline/record/json.h"

namespace panel_dossier {

namespace {

std::string short_hash(const HexDigest& hash) {
  constexpr std::size_t kShownDigits = 16;
  return hash.substr(0, kShownDigits);
}

std::string setting_text(const Settings::Value& value) {
  if (const auto* number = std::get_if<double>(&value)) return shortest_number(*number);
  if (const auto* logical = std::get_if<bool>(&value)) return *logical ? "true" : "false";
  const auto& text = std::get<std::string>(value);
  return text.empty() ? "''" : text;  // an empty text still stands there
}

using ShownInputs = std::map<std::string, std::string>;  ///< what is shown of an input, by its name

void add_differences(CauseKind kind, const ShownInputs& before, const ShownInputs& after, std::vector<Cause>& causes) {
  ShownInputs names = before;
  names.insert(after.begin(), after.end());
  const auto text_in = [](const ShownInputs& texts, const std::string& name) {
    const auto found = texts.find(name);
    return found == texts.end() ? std::string() : found->second;
  };
  for (const auto& [name, unused] : names) {
    Cause cause{kind, name, text_in(before, name), text_in(after, name)};
    if (cause.before != cause.after) causes.push_back(std::move(cause));
  }
}

ShownInputs settings_of(const BuildSummary& build) {
  ShownInputs texts;
  for (const auto& [key, value] : *build.settings) texts[key] = setting_text(value);
  return texts;
}

void add_settings(const BuildSummary& before, const BuildSummary& after, std::vector<Cause>& causes) {
  if (before.settings && after.settings) {
    add_differences(CauseKind::setting, settings_of(before), settings_of(after), causes);
  }
  if (causes.empty() && before.settings_sha256 != after.settings_sha256) {
    causes.push_back(
        {CauseKind::settings_file, "settings", short_hash(before.settings_sha256), short_hash(after.settings_sha256)});
  }
}

ShownInputs hashes_of(const std::vector<HashedFile>& files) {
  ShownInputs texts;
  for (const HashedFile& file : files) texts[file.name] = short_hash(file.sha256);
  return texts;
}

std::string evidence_id(const BuildSummary& before, const BuildSummary& after, const std::string& file) {
  for (const BuildSummary* build : {&after, &before}) {
    const auto found = std::ranges::find(build->evidence, file, &HashedFile::name);
    if (found != build->evidence.end()) return found->id;
  }
  return {};
}

ShownInputs plugins_of(const BuildSummary& build) {
  ShownInputs texts;
  for (const PluginSummary& plugin : build.plugins) {
    texts[plugin.id] = "version " + plugin.version + " " + short_hash(plugin.sha256);
  }
  return texts;
}

ShownInputs data_tables_of(const BuildSummary& build) {
  ShownInputs texts;
  for (const PluginSummary& plugin : build.plugins) {
    for (const HashedFile& table : plugin.data_tables) {
      texts[plugin.id + "/" + table.name] = short_hash(table.sha256);
    }
  }
  return texts;
}

}  // namespace

std::string_view to_string(CauseKind kind) {
  switch (kind) {
    case CauseKind::setting: return "setting";
    case CauseKind::settings_file: return "settings file";
    case CauseKind::export_file: return "export";
    case CauseKind::project_file: return "project file";
    case CauseKind::evidence: return "evidence";
    case CauseKind::plugin: return "plugin";
    case CauseKind::data_table: return "data table";
    case CauseKind::program: return "program";
  }
  throw std::logic_error("cause kind without words");
}

std::string to_string(const Cause& cause) {
  const auto shown = [](const std::string& text) { return text.empty() ? std::string("none") : text; };
  return std::string(to_string(cause.kind)) + " " + cause.name + ": " + shown(cause.before) + " -> " +
         shown(cause.after);
}

std::string to_string(const Effects& effects) {
  const auto counted = [](std::size_t count, const char* noun) {
    return std::to_string(count) + " " + noun + (count == 1 ? "" : "s");
  };
  std::string text = counted(effects.figures, "figure") + ", " + counted(effects.verdicts, "verdict");
  if (effects.worse > 0) text += " (" + std::to_string(effects.worse) + " worse)";
  return text;
}

std::vector<Cause> causes_between(const BuildSummary& before, const BuildSummary& after) {
  std::vector<Cause> causes;
  add_settings(before, after, causes);
  if (before.export_sha256 != after.export_sha256) {
    causes.push_back(
        {CauseKind::export_file, after.export_name, short_hash(before.export_sha256), short_hash(after.export_sha256)});
  }
  add_differences(CauseKind::project_file, hashes_of(before.settings_files), hashes_of(after.settings_files), causes);
  add_differences(CauseKind::evidence, hashes_of(before.evidence), hashes_of(after.evidence), causes);
  for (Cause& cause : causes) {
    if (cause.kind == CauseKind::evidence) cause.id = evidence_id(before, after, cause.name);
  }
  add_differences(CauseKind::plugin, plugins_of(before), plugins_of(after), causes);
  add_differences(CauseKind::data_table, data_tables_of(before), data_tables_of(after), causes);
  if (before.program_version != after.program_version) {
    causes.push_back({CauseKind::program, "panel-dossier", before.program_version, after.program_version});
  }
  return causes;
}

}  // namespace panel_dossier
