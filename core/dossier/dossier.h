// Results -> unsigned PDF pages.
#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/trace/compare.h"
#include "core/trace/history.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

struct DossierContent {
  const Project& project;
  const Settings& settings;
  const ResultsDocument& results;
  std::vector<Comparison> comparisons = {};  ///< with the last issue and the last build, as far as there are
  std::vector<HistoryEntry> history = {};    ///< of the builds up to and with this one
};

struct DossierFonts {
  std::filesystem::path regular;
  std::filesystem::path bold;
  std::filesystem::path italic;
};

/// Called with the pages or panel sheets done so far and their total.
using DossierProgress = std::function<void(std::size_t done, std::size_t total)>;

/// Writes the pages to `file` with bookmarks, links and page labels. Same content, same bytes. Throws
/// std::runtime_error with file name and reason when a font cannot be read or the file cannot be written.
void write_dossier(const DossierContent& content, const DossierFonts& fonts, const std::filesystem::path& file,
                   const DossierProgress& progress = {});

}  // namespace panel_dossier
