#include "core/cli/build/output/handover_files.h"

#include <utility>

#include "core/dossier/guidance/guidance.h"
#include "core/dossier/handover/cobie_workbook.h"
#include "core/dossier/handover/companion_page.h"
#include "core/dossier/handover/handover.h"
#include "core/dossier/handover/inspections.h"
#include "core/dossier/handover/tables_workbook.h"

namespace panel_dossier {

void write_table_workbooks(const Project& project, const std::vector<OutputTable>& tables, const std::string& time_utc,
                           const std::filesystem::path& folder) {
  write_tables(tables, TableReaders::client, project.name, time_utc, folder / "tables.xlsx");
  write_tables(tables, TableReaders::workshop, project.name, time_utc, folder / "workshop.xlsx");
}

void write_handover(const DossierContent& content, std::vector<PanelPage> pages, const PluginFolder& plugins,
                    const std::filesystem::path& folder) {
  HandoverContent handover{content, std::move(pages), stated_inspections(content.project), {}};
  if (content.guidance != nullptr) {
    add_next_planned(handover.inspections, content.guidance->calendar, content.results.build.time_utc.substr(0, 10));
  }
  for (const LoadedPlugin& plugin : plugins.plugins) {
    handover.standard_results.insert(handover.standard_results.end(), plugin.written_back.begin(),
                                     plugin.written_back.end());
  }
  write_cobie(handover, folder / "cobie.xlsx");
  write_companion(handover, folder / "companion.html");
}

}  // namespace panel_dossier
