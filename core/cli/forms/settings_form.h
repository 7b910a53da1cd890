// A settings file to start from: every setting that is known, with what it means, and filled in what the export tells.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/intake/settings/setting_description.h"
#include "core/pipeline/gaps.h"

namespace panel_dossier {

/// A setting with a value that another source gives.
struct KnownSetting {
  std::string key;      ///< dotted
  std::string value;    ///< as JSON
  std::string because;  ///< where it was read, for the comment beside it
};

/// What the export tells of the settings. `disciplines` are the ids of the plugins that are loaded.
std::vector<KnownSetting> settings_of_export(const Project& project, const std::vector<std::string>& disciplines);

/// JSON with comments. Known settings stand in it as values, all others as comments in the form in which they are
/// written, those that a gap names marked with who needs them. `all` describes the settings, as a group of groups.
/// With `needed_only`, settings that are neither known nor named by a gap are left out.
std::string settings_form(const SettingDescription& all, const std::vector<KnownSetting>& known,
                          const std::vector<Gap>& gaps, bool needed_only);

}  // namespace panel_dossier
