#include "core/dossier/dossier.h"

#include <stdexcept>

#include "core/dossier/layout/pdf_document.h"
#include "core/dossier/parts/sections.h"
#include "core/trace/open_points.h"

namespace panel_dossier {

namespace {

void require_matching_panels(const DossierContent& content) {
  const auto& panels = content.project.panels;
  const auto& results = content.results.panels;
  bool match = panels.size() == results.size();
  for (std::size_t i = 0; match && i < panels.size(); ++i) match = panels[i].global_id == results[i].global_id;
  if (!match) throw std::logic_error("the results do not list the project's panels in the project's order");
}

}  // namespace

void write_dossier(const DossierContent& content, const DossierFonts& fonts, const std::filesystem::path& file,
                   const DossierProgress& progress) {
  require_matching_panels(content);
  PdfDocument pdf(fonts);
  Flow flow(pdf);
  Book book{pdf, flow, content, disciplines_without_result(content.results)};
  pdf.information("Panel dossier: " + content.results.project.name,
                  "Handover dossier of factory-made insulated timber cassette panels", content.results.build.time_utc);

  pdf.page_labels(0, true);
  write_cover(book);
  write_contents(book);
  pdf.page_labels(pdf.page_count(), false);
  write_reading_guide(book);
  write_glance(book);
  write_panel_overview(book);
  write_chapters(book);
  write_panel_sheets(book, progress);
  write_maintenance(book);
  write_safety_file(book);
  write_fire_information(book);
  write_evidence_register(book);
  write_open_points(book);
  write_changes(book);
  write_verification_guide(book);
  write_furniture(book);
  pdf.save(file);
}

}  // namespace panel_dossier
