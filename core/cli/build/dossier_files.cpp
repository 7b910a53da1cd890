#include "core/cli/build/dossier_files.h"

#include <spdlog/spdlog.h>

#include <cstddef>
#include <set>
#include <utility>
#include <vector>

#include "core/api/support/words.h"
#include "core/cli/build/attachments.h"
#include "core/dossier/parts/labels.h"
#include "core/intake/document/sha256.h"
#include "core/seal/finish.h"
#include "core/seal/signature_field.h"
#include "core/trace/write_back/standard_results.h"
#include "core/trace/write_back/write_back.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

/// Names the volumes of a dossier and their hashes for whoever verifies it.
Attachment volumes_attachment(const std::vector<DossierVolume>& volumes) {
  std::string text = csv_line({"file", "what", "pages", "sha256"});
  for (const DossierVolume& volume : volumes)
    text += csv_line({volume.file, volume.title, std::to_string(volume.pages), volume.sha256});
  return {std::string(kVolumesAttachment), "text/csv", "Volumes of this dossier with the hashes of their files", "Data",
          std::move(text)};
}

}  // namespace

void write_signed_dossier(const DossierContent& content, const BuildOptions& options, const Inputs& inputs,
                          const std::string& results, const Signer& signer, const fs::path& file, Progress& progress) {
  const fs::path pages = file.parent_path() / "pages.pdf";
  std::size_t reported = 0;
  std::vector<DossierVolume> volumes;
  const auto finish = [&](const fs::path& from, const std::vector<Attachment>& attachments, const std::string& volume,
                          const fs::path& to) {
    finish_dossier(from, content.results, attachments, signer.signature_bytes(), to, volume);
    fs::remove(from);
    sign_dossier(to, signer, content.results.build.time_utc);
  };
  write_dossier(
      content, fonts_in(options.font_dir), pages,
      [&](std::size_t done, std::size_t total) {
        if (reported == 0) progress.begin("laying out the dossier", total);
        progress.advance(done - reported);
        reported = done;
      },
      [&](const fs::path& volume_pages, const DossierVolume& volume) {
        const fs::path finished = file.parent_path() / volume.file;
        finish(volume_pages, {}, volume.title, finished);
        volumes.push_back(volume);
        volumes.back().sha256 = to_hex(sha256_file(finished));
        return volumes.back().sha256;
      });
  progress.begin("finishing and signing", 0);
  std::vector<Attachment> attachments = attachments_of(inputs, content.results.build.export_name, results);
  if (!volumes.empty()) attachments.push_back(volumes_attachment(volumes));
  finish(pages, attachments, {}, file);
}

void write_workshop_file(const DossierContent& content, const BuildOptions& options, const fs::path& file) {
  const fs::path pages = file.parent_path() / "workshop-pages.pdf";
  write_workshop(content, fonts_in(options.font_dir), pages);
  finish_working_pages(pages, file);
  fs::remove(pages);
}

void write_part_labels(const BuildOptions& options, const ResultsDocument& document, const fs::path& file,
                       spdlog::logger& log) {
  const fs::path pages = file.parent_path() / "label-pages.pdf";
  if (write_labels(document, fonts_in(options.font_dir), pages) == 0) {
    log.warn("labels.pdf is not written: no panel has a cutting list");
    return;
  }
  finish_working_pages(pages, file);
  fs::remove(pages);
}

void write_back_results(const BuildOptions& options, const Inputs& inputs, const ResultsDocument& document,
                        const PluginFolder& plugins, spdlog::logger& log) {
  require_earlier_results(options.write_back);
  std::vector<WrittenBack> rows;
  for (const LoadedPlugin& plugin : plugins.plugins) {
    rows.insert(rows.end(), plugin.written_back.begin(), plugin.written_back.end());
  }
  std::vector<PanelResults> results = panel_results(document);
  if (!rows.empty()) {
    const StandardSets standard(options.input.schema_dir);
    std::set<std::string> panels;
    for (const PanelResults& panel : results) panels.insert(panel.global_id);
    const StandingSets standing =
        read_standing_sets(inputs.export_bytes, options.input.schema_dir, panels, types_of(rows, standard));
    const StandardOutcome outcome =
        add_standard_results(results, document, *inputs.intake.project, rows, standard, standing);
    log.info(
        "written back into properties of the standard: {}; not written: {} that the export states, {} whose set "
        "other objects share",
        outcome.written, outcome.stated, outcome.shared);
  }
  write_in_place(options.write_back, export_with_results(inputs.export_bytes, results),
                 {options.input.export_file, options.input.settings_file});
}

}  // namespace panel_dossier
