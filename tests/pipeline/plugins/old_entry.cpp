#include "core/api/plugin.h"

extern "C" __attribute__((visibility("default"))) const panel_dossier::PluginEntry panel_dossier_plugin;
// Of an earlier layout only the first member can be read: the others were something else.
const panel_dossier::PluginEntry panel_dossier_plugin = {3, nullptr, nullptr, nullptr, nullptr};
