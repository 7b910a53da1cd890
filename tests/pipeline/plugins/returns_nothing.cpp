#include "core/api/plugin.h"

extern "C" __attribute__((visibility("default"))) const panel_dossier::PluginEntry panel_dossier_plugin;
const panel_dossier::PluginEntry panel_dossier_plugin = {
    panel_dossier::kEntryLayout, panel_dossier::kKitHash, panel_dossier::kAbi, "returns_nothing",
    [](const std::filesystem::path&) -> panel_dossier::Plugin* { return nullptr; }};
