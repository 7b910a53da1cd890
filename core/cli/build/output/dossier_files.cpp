#include "core/cli/build/output/dossier_files.h"

#include <spdlog/spdlog.h>

#include <cstddef>
#include <set>
#include <string_view>
#include <utility>
#include <vector>

#include "core/api/support/words.h"
#include "core/cli/build/output/attachments.h"
#include "core/dossier/parts/panel/labels.h"
#include "core/intake/document/file_bytes.h"
#include "core/intake/document/file_writer.h"
#include "core/intake/document/sha256.h"
#include "core/seal/finish.h"
#include "core/seal/signature_field.h"
#include "core/trace/write_back/standard_results.h"
#include "core/trace/write_back/write_back.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

constexpr const char* kResultsFile = "results.json";
constexpr const char* kPages = "pages.pdf";

/// Names the volumes of a dossier and their hashes for whoever verifies it.
Attachment volumes_attachment(const std::vector<DossierVolume>& volumes) {
  std::string text = csv_line({"file", "what", "pages", "sha256"});
  for (const DossierVolume& volume : volumes)
    text += csv_line({volume.file, volume.title, std::to_string(volume.pages), volume.sha256});
  Attachment attachment;
  attachment.name = std::string(kVolumesAttachment);
  attachment.mime_type = "text/csv";
  attachment.description = "Volumes of this dossier with the hashes of their files";
  attachment.relationship = "Data";
  attachment.bytes = std::move(text);
  return attachment;
}

}  // namespace

void write_results(const ResultsDocument& document, const fs::path& folder) {
  FileWriter file(folder / kResultsFile);
  write_json(document, [&file](std::string_view piece) { file.write(piece); });
  file.close();
}

void write_guidance_files(const Guidance& guidance, const Project& project, const ResultsDocument& document,
                          std::vector<OpenPoint> points, const std::filesystem::path& folder) {
  points.insert(points.end(), guidance.open_points.begin(), guidance.open_points.end());
  write_file(folder / "open-points.csv", open_points_csv(points));
  if (guidance.calendar.entries.empty()) return;
  write_file(folder / "calendar.ics", icalendar(guidance.calendar, project, document.build.time_utc));
}

LaidOutDossier lay_out_dossier(const DossierContent& content, const BuildOptions& options, const Signer& signer,
                               const fs::path& folder, Progress& progress) {
  std::size_t reported = 0;
  LaidOutDossier laid_out;
  laid_out.panel_pages = write_dossier(
      content, fonts_in(options.font_dir), folder / kPages,
      [&](std::size_t done, std::size_t total) {
        if (reported == 0) progress.begin("laying out the dossier", total);
        progress.advance(done - reported);
        reported = done;
      },
      [&](const fs::path& pages, const DossierVolume& volume) {
        const fs::path file = folder / volume.file;
        finish_dossier(pages, content.results, {}, signer.signature_bytes(), file, volume.title);
        fs::remove(pages);
        sign_dossier(file, signer, content.results.build.time_utc);
        laid_out.volumes.push_back(volume);
        laid_out.volumes.back().sha256 = to_hex(sha256_file(file));
        return laid_out.volumes.back().sha256;
      });
  return laid_out;
}

void finish_signed_dossier(const ResultsDocument& document, const std::vector<DossierVolume>& volumes,
                           const Inputs& inputs, const KeptExport& export_file, const Signer& signer,
                           const fs::path& folder, Progress& progress) {
  progress.begin("finishing and signing", 0);
  const fs::path pages = folder / kPages;
  const fs::path file = folder / "dossier.pdf";
  std::vector<Attachment> attachments =
      attachments_of(inputs, export_file, document.build.export_name, folder / kResultsFile);
  if (!volumes.empty()) attachments.push_back(volumes_attachment(volumes));
  finish_dossier(pages, document, attachments, signer.signature_bytes(), file);
  fs::remove(pages);
  sign_dossier(file, signer, document.build.time_utc);
}

void write_workshop_file(const DossierContent& content, const BuildOptions& options, const fs::path& file) {
  const fs::path pages = file.parent_path() / "workshop-pages.pdf";
  write_workshop(content, fonts_in(options.font_dir), pages);
  finish_working_pages(pages, file);
  fs::remove(pages);
}

void write_label_files(const BuildOptions& options, const ResultsDocument& document, const fs::path& folder,
                       spdlog::logger& log) {
  const DossierFonts fonts = fonts_in(options.font_dir);
  const fs::path pages = folder / "label-pages.pdf";
  const auto finish = [&](std::size_t labels, const char* file, const char* why_none) {
    if (labels == 0) {
      log.warn("{} is not written: {}", file, why_none);
      return;
    }
    finish_working_pages(pages, folder / file);
    fs::remove(pages);
  };
  finish(write_labels(document, fonts, pages, options.label_choice), "labels.pdf", "no panel has a cutting list");
  finish(write_panel_labels(document, fonts, pages), "panel-labels.pdf", "the project has no panels");
}

void write_back_results(const BuildOptions& options, const Inputs& inputs, const KeptExport& export_file,
                        const ResultsDocument& document, const PluginFolder& plugins, spdlog::logger& log) {
  require_earlier_results(options.write_back);
  std::vector<WrittenBack> rows;
  for (const LoadedPlugin& plugin : plugins.plugins) {
    rows.insert(rows.end(), plugin.written_back.begin(), plugin.written_back.end());
  }
  std::vector<PanelResults> results = panel_results(document);
  const std::string export_bytes = export_file.bytes();
  if (!rows.empty()) {
    const StandardSets standard(options.input.schema_dir);
    std::set<std::string> panels;
    for (const PanelResults& panel : results) panels.insert(panel.global_id);
    const StandingSets standing =
        read_standing_sets(export_bytes, options.input.schema_dir, panels, types_of(rows, standard));
    const StandardOutcome outcome =
        add_standard_results(results, document, *inputs.intake.project, rows, standard, standing);
    log.info(
        "written back into properties of the standard: {}; not written: {} that the export states, {} whose set "
        "other objects share",
        outcome.written, outcome.stated, outcome.shared);
  }
  write_in_place(options.write_back, export_with_results(export_bytes, results),
                 {options.input.export_file, options.input.settings_file});
}

}  // namespace panel_dossier
