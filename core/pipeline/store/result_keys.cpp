#include "core/pipeline/store/result_keys.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string_view>
#include <utility>
#include <variant>

#include "core/intake/document/file_bytes.h"
#include "core/pipeline/store/project_fields.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

std::string_view view_of(const Digest& digest) {
  return {reinterpret_cast<const char*>(digest.data()), digest.size()};
}

template <typename... T>
Digest digest_of(LineNumbers* lines, const T&... values) {
  ByteWriter writer(lines);
  writer(values...);
  return sha256(writer.bytes());
}

std::string text_of_setting(const Settings::Value& value) {
  if (const auto* number = std::get_if<double>(&value)) return nlohmann::json(*number).dump();
  if (const auto* logical = std::get_if<bool>(&value)) return *logical ? "true" : "false";
  return std::get<std::string>(value);
}

bool is_declared(const std::vector<CheckDeclaration>& checks, const std::string& key) {
  return std::any_of(checks.begin(), checks.end(), [&](const CheckDeclaration& check) {
    return std::any_of(check.inputs.begin(), check.inputs.end(), [&](const CheckInput& input) {
      return input.source == CheckInput::Source::setting && names_input(input.name, key);
    });
  });
}

/// Of the settings that the plugin's checks may read; withheld ones with the reason.
std::map<std::string, std::string> settings_read(const Settings& settings, const LoadedPlugin& plugin,
                                                 const PluginReads& reads) {
  std::map<std::string, std::string> read;
  const auto& checks = plugin.plugin->checks();
  const auto counts = [&](const std::string& key) { return reads.undeclared_settings || is_declared(checks, key); };
  for (const auto& [key, value] : settings.all()) {
    if (counts(key)) read.emplace(key, text_of_setting(value));
  }
  for (const auto& [key, why] : settings.withheld()) {
    if (counts(key)) read.emplace(key, "withheld: " + why);
  }
  return read;
}

/// Contents of the documents, which plugins may read.
Digest digest_of_evidence(const Project& project) {
  std::string all;
  for (const Evidence& document : project.evidence) {
    const bool is_there = document.status != EvidenceStatus::missing && document.status != EvidenceStatus::refused;
    if (is_there) all += view_of(sha256_file(fs::path(folder_of(document, project)) / document.location));
    all += '\n';
  }
  return sha256(all);
}

/// As they are, withheld with the reason, or absent.
void write_properties(ByteWriter& writer, const Properties& properties, const std::vector<std::string>& names) {
  for (const std::string& name : names) {
    const auto found = properties.all().find(name);
    writer(found != properties.all().end());
    if (found != properties.all().end()) writer(found->second);
    const auto withheld = properties.withheld().find(name);
    writer(withheld != properties.withheld().end());
    if (withheld != properties.withheld().end()) writer(withheld->second);
  }
}

/// The other panels, as far as they are read, and their lines. Of their properties `properties` alone, null: all.
Digest digest_of_panels(const Project& project, const PluginReads& reads, LineNumbers& lines,
                        const PropertyNames* properties) {
  Sha256 hasher;
  if (reads.other_panels == PluginReads::OtherPanels::none) return hasher.finish();
  ByteWriter writer(&lines, properties);
  writer(project.panels.size());
  for (const Panel& panel : project.panels) {
    if (reads.other_panels == PluginReads::OtherPanels::all) {
      writer(panel);
    } else if (reads.other_panels == PluginReads::OtherPanels::models) {
      writer(PanelModel{panel});
    } else {
      writer(PanelBody{panel});
      write_properties(writer, panel.properties, reads.other_properties);
    }
    hasher.add(writer.bytes());
    writer.clear();
  }
  return hasher.finish();
}

}  // namespace

Digest digest_of_place(const fs::path& place) {
  if (!fs::exists(place)) return sha256("absent");
  if (!fs::is_directory(place)) return sha256_file(place);
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(place)) {
    if (entry.is_regular_file()) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  std::string all;
  for (const fs::path& file : files) {
    all += fs::relative(file, place).string();
    all += '\0';
    all += view_of(sha256_file(file));
  }
  return sha256(all);
}

namespace {

bool is_list_of_texts(const nlohmann::json& value) {
  return value.is_array() && std::all_of(value.begin(), value.end(), [](const auto& one) { return one.is_string(); });
}

}  // namespace

PluginReads read_plugin_reads(const fs::path& file) {
  const auto json = nlohmann::json::parse(read_file(file));
  if (!json.is_object()) throw std::runtime_error("is no JSON object");
  static const std::map<std::string, PluginReads::OtherPanels> kLevels = {{"none", PluginReads::OtherPanels::none},
                                                                          {"bodies", PluginReads::OtherPanels::bodies},
                                                                          {"models", PluginReads::OtherPanels::models},
                                                                          {"all", PluginReads::OtherPanels::all}};
  PluginReads reads;
  for (const auto& [name, value] : json.items()) {
    const auto level =
        name == "other_panels" && value.is_string() ? kLevels.find(value.get<std::string>()) : kLevels.end();
    if (level != kLevels.end()) {
      reads.other_panels = level->second;
    } else if (name == "other_properties" && is_list_of_texts(value)) {
      reads.other_properties = value.get<std::vector<std::string>>();
    } else if (name == "registers" && value.is_boolean()) {
      reads.registers = value.get<bool>();
    } else if (name == "undeclared_settings" && value.is_boolean()) {
      reads.undeclared_settings = value.get<bool>();
    } else if (name == "undeclared_properties" && value.is_boolean()) {
      reads.undeclared_properties = value.get<bool>();
    } else {
      throw std::runtime_error(
          "holds '" + name + "': " + value.dump() +
          "; it may hold other_panels (none, bodies, models or all), registers, undeclared_settings and "
          "undeclared_properties (true or false)");
    }
  }
  if (!reads.other_properties.empty() && reads.other_panels != PluginReads::OtherPanels::bodies) {
    throw std::runtime_error("names other_properties, which go with other_panels: bodies alone");
  }
  return reads;
}

ResultKeys::ResultKeys(const Project& project, const Settings& settings, const std::vector<LoadedPlugin>& plugins,
                       const Digest& files)
    : project_(project) {
  // Its own code weighs claims and holds findings to the contract.
  const Digest program = digest_of_place("/proc/self/exe");
  const Digest evidence = digest_of_evidence(project);
  for (const LoadedPlugin& plugin : plugins) {
    const fs::path reads_file = plugin.data_dir / "reads.json";
    PluginReads reads;
    try {
      if (fs::exists(reads_file)) reads = read_plugin_reads(reads_file);
    } catch (const std::exception& error) {
      throw std::runtime_error("'" + reads_file.string() + "' " + error.what());
    }
    PluginKey key;
    auto lines = std::make_shared<LineNumbers>();
    key.settings = settings_read(settings, plugin, reads);
    if (!reads.undeclared_properties) {
      auto declared = std::make_shared<PropertyNames>(plugin.plugin->checks());
      for (const std::string& name : reads.other_properties) declared->add(name);
      key.properties = std::move(declared);
    }
    key.parts = {{"the program", program},
                 {"the plugin", digest_of(nullptr, plugin.info, digest_of_place(plugin.file))},
                 {"the plugin's data tables", digest_of_place(plugin.data_dir)},
                 {kSettingsPart, digest_of(nullptr, key.settings)},
                 {"files beside the export", files},
                 {"documents of evidence", evidence},
                 {"building, materials or evidence", digest_of(lines.get(), Building{project})}};
    if (reads.registers) key.parts.push_back({"registers", digest_of(lines.get(), Registers{project})});
    key.parts.push_back({"other panels", digest_of_panels(project, reads, *lines, key.properties.get())});
    lines->close();
    key.lines = std::move(lines);
    plugins_.push_back(std::move(key));
  }
}

ResultKey ResultKeys::closed(const PluginKey& shared, std::string_view subject, const Digest& own, LineNumbers lines) {
  lines.close();
  std::string all(subject);
  for (const KeyPart& part : shared.parts) all += view_of(part.digest);
  all += view_of(own);
  return {sha256(all), own, std::move(lines)};
}

ResultKey ResultKeys::of_panel(std::size_t plugin, std::size_t panel) const {
  const PluginKey& shared = plugins_.at(plugin);
  LineNumbers lines(shared.lines.get());
  ByteWriter writer(&lines, shared.properties.get());
  writer(project_.panels.at(panel));
  return closed(shared, "panel", sha256(writer.bytes()), std::move(lines));
}

ResultKey ResultKeys::of_project(std::size_t plugin) const {
  const PluginKey& shared = plugins_.at(plugin);
  LineNumbers lines(shared.lines.get());
  ByteWriter writer(&lines, shared.properties.get());
  Sha256 hasher;
  writer(Registers{project_}, project_.panels.size());
  for (const Panel& panel : project_.panels) {
    writer(panel);
    hasher.add(writer.bytes());
    writer.clear();
  }
  hasher.add(writer.bytes());
  return closed(shared, "project", hasher.finish(), std::move(lines));
}

}  // namespace panel_dossier
