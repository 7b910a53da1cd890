#include "core/api/plugin.h"

extern "C" __attribute__((visibility("default"))) const panel_dossier::PluginEntry panel_dossier_plugin;
const panel_dossier::PluginEntry panel_dossier_plugin = {panel_dossier::kEntryLayout, "0123456789abcdef",
                                                         panel_dossier::kAbi, "other_kit", nullptr};
