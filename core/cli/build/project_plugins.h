// What the settings of a project say about the plugins: which it needs, and which may run.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/settings.h"
#include "core/pipeline/plugin_host.h"

namespace panel_dossier {

/// One message for each discipline of the setting `plugins.expected` that was not loaded: without it the findings that
/// it alone makes are absent, and nothing else would tell.
std::vector<std::string> absent_disciplines(const Settings& settings, const std::vector<LoadedPlugin>& loaded,
                                            const std::string& folders);

/// Moves the plugins of which the shared object has none of the hashes that the setting `plugins.allowed` lists from
/// the loaded to the refused ones, with the hash in the message. Without the setting all may run.
void refuse_not_allowed(PluginFolder& plugins, const Settings& settings);

}  // namespace panel_dossier
