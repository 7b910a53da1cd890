// The open data of a build beside its dossier.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/dossier/dossier.h"
#include "core/pipeline/outputs.h"
#include "core/pipeline/plugin_host.h"

namespace panel_dossier {

/// tables.xlsx, which goes to the client, and workshop.xlsx with all tables, for the practice's own people. Throws
/// std::runtime_error when something cannot be written.
void write_table_workbooks(const Project& project, const std::vector<OutputTable>& tables, const std::string& time_utc,
                           const std::filesystem::path& folder);

/// cobie.xlsx and companion.html in the folder. Throws std::runtime_error when something cannot be written.
void write_handover(const DossierContent& content, std::vector<PanelPage> pages, const PluginFolder& plugins,
                    const std::filesystem::path& folder);

}  // namespace panel_dossier
