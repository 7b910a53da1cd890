// What of a build is made of its results: the signed dossier, the labels, the export with results in it.
#pragma once

#include <spdlog/logger.h>

#include <filesystem>
#include <string>
#include <vector>

#include "core/cli/build/build.h"
#include "core/cli/build/output/kept_export.h"
#include "core/dossier/dossier.h"
#include "core/dossier/guidance/guidance.h"
#include "core/pipeline/plugin_host.h"
#include "core/pipeline/run.h"
#include "core/seal/signer.h"

namespace panel_dossier {

/// results.json in the folder. Throws std::runtime_error when it cannot be written.
void write_results(const ResultsDocument& document, const std::filesystem::path& folder);

/// open-points.csv with the points of the findings and of the handover, and calendar.ics where there is a day in it.
/// Throws std::runtime_error when one cannot be written.
void write_guidance_files(const Guidance& guidance, const Project& project, const ResultsDocument& document,
                          std::vector<OpenPoint> points, const std::filesystem::path& folder);

/// What is laid out of a dossier.
struct LaidOutDossier {
  std::vector<DossierVolume> volumes;  ///< finished and signed
  std::vector<PanelPage> panel_pages;  ///< in the project's order of panels
};

/// Lays out the pages of the dossier in the folder, of a large one in volumes. Throws std::runtime_error when a font is
/// missing or something cannot be written or signed.
LaidOutDossier lay_out_dossier(const DossierContent& content, const BuildOptions& options, const Signer& signer,
                               const std::filesystem::path& folder, Progress& progress);

/// Makes dossier.pdf of the folder's pages and results.json, with the inputs attached, and signs it. Of the document it
/// needs neither panels nor findings. Throws std::runtime_error when something cannot be written or signed.
void finish_signed_dossier(const ResultsDocument& document, const std::vector<DossierVolume>& volumes,
                           const Inputs& inputs, const KeptExport& export_file, const Signer& signer,
                           const std::filesystem::path& folder, Progress& progress);

/// workshop.pdf, neither signed nor part of what the client receives.
void write_workshop_file(const DossierContent& content, const BuildOptions& options, const std::filesystem::path& file);

/// labels.pdf and panel-labels.pdf; a warning in the log in place of one where there is nothing to label.
void write_label_files(const BuildOptions& options, const ResultsDocument& document,
                       const std::filesystem::path& folder, spdlog::logger& log);

/// The last before the folder is published: what cannot be written back stops the build.
void write_back_results(const BuildOptions& options, const Inputs& inputs, const KeptExport& export_file,
                        const ResultsDocument& document, const PluginFolder& plugins, spdlog::logger& log);

}  // namespace panel_dossier
