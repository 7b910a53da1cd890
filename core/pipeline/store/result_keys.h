// What the findings of one plugin on one panel, or on the project, follow from, as a key: equal keys, equal findings.
#pragma once

#include <cstddef>
#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/intake/document/sha256.h"
#include "core/pipeline/byte_form/line_numbers.h"
#include "core/pipeline/byte_form/property_names.h"
#include "core/pipeline/plugin_host.h"

namespace panel_dossier {

/// What the checks of a plugin read: its reads.json; without that file everything. Its checks of panels always read the
/// panel itself, the building and its materials, and evidence; those of the project read all that there is but for
/// undeclared settings and properties.
struct PluginReads {
  enum class OtherPanels {
    none,
    bodies,  ///< place, layers, parts and openings: no document or record of the panel itself, and few properties
    models,  ///< all but what workshop and site wrote down of them
    all,
  };
  OtherPanels other_panels = OtherPanels::all;
  std::vector<std::string> other_properties;  ///< `Pset.Property` that are read of other panels beside their bodies
  bool registers = true;                      ///< deliveries, batches and records of no panel
  bool undeclared_settings = true;            ///< settings that none of its checks declares
  /// Properties that none of its checks declares: of panels and of their layers, parts and openings.
  bool undeclared_properties = true;
};

/// Throws std::runtime_error saying what is wrong: not JSON, a member that is not known, or of another type or word.
PluginReads read_plugin_reads(const std::filesystem::path& file);

/// The name of the part that PluginKey::settings tells in full.
inline constexpr const char* kSettingsPart = "settings";

/// One thing that findings follow from.
struct KeyPart {
  std::string name;  ///< `the plugin`, `settings`, …: words for the reason why something was computed
  Digest digest;
};

/// What all panels of one plugin have in common.
struct PluginKey {
  std::vector<KeyPart> parts;
  std::map<std::string, std::string> settings;  ///< that the checks may read, with their values as text
  std::shared_ptr<const LineNumbers> lines;
  std::shared_ptr<const PropertyNames> properties;  ///< that the checks may read; null: all
};

/// Of the findings of one plugin on one panel, or on the project.
struct ResultKey {
  Digest key;
  Digest own;  ///< of the panel alone; for the project of all panels and registers
  LineNumbers lines;
};

/// Thread-safe once made. Project, settings and plugins must outlive it.
class ResultKeys {
 public:
  /// `files` are of all that was read beside the export. Throws std::runtime_error naming a file of plugin or evidence
  /// that cannot be read, or a broken reads.json.
  ResultKeys(const Project& project, const Settings& settings, const std::vector<LoadedPlugin>& plugins,
             const Digest& files);

  const PluginKey& of_plugin(std::size_t plugin) const { return plugins_.at(plugin); }
  ResultKey of_panel(std::size_t plugin, std::size_t panel) const;
  /// The findings on panels that the checks of the project are given follow from the same.
  ResultKey of_project(std::size_t plugin) const;

 private:
  const Project& project_;
  std::vector<PluginKey> plugins_;

  static ResultKey closed(const PluginKey& shared, std::string_view subject, const Digest& own, LineNumbers lines);
};

/// Over the names and contents of a file or of all files of a folder, by name; of an absent one a digest of its own.
Digest digest_of_place(const std::filesystem::path& place);

}  // namespace panel_dossier
