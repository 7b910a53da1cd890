// Results -> unsigned PDF pages.
#pragma once

#include <filesystem>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/trace/compare.h"
#include "core/trace/history.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

struct Guidance;

struct DossierContent {
  const Project& project;
  const Settings& settings;
  const ResultsDocument& results;
  std::vector<Comparison> comparisons = {};  ///< with the last issue and the last build, as far as there are
  std::vector<HistoryEntry> history = {};    ///< of the builds up to and with this one
  /// What people call a property, under its full name `Pset.Property`.
  std::map<std::string, std::string, std::less<>> property_titles = {};
  /// People, sentences, calendar and duties; null where none were worked out, which the parts that print them say.
  const Guidance* guidance = nullptr;
};

struct DossierFonts {
  std::filesystem::path regular;
  std::filesystem::path bold;
  std::filesystem::path italic;
  std::filesystem::path signs;  ///< for the characters that the three faces lack
};

/// Called with the pieces laid out so far, panels and disciplines of the annex, and their total.
using DossierProgress = std::function<void(std::size_t done, std::size_t total)>;

/// One of the files beside the main one into which a large dossier is parted.
struct DossierVolume {
  std::string file;   ///< name
  std::string title;  ///< what it holds
  std::size_t pages = 0;
  HexDigest sha256 = {};  ///< of the finished file; empty until then
};

/// Where the pages of one panel begin.
struct PanelPage {
  std::string file;        ///< `dossier.pdf` or the name of the volume
  std::string label;       ///< as the page bears it: `57`, `P1.12`
  std::size_t number = 0;  ///< in the file, from 1
};

/// Finishes and signs the pages of a volume, which it may move away, and returns the SHA-256 of the file made of them.
using VolumeSink = std::function<HexDigest(const std::filesystem::path& pages, const DossierVolume& volume)>;

/// Writes the pages to `file` with bookmarks, links and page labels. Same content, same bytes. Above the number of
/// panels of the setting `dossier.volume_panels` the annex and the panels go into volumes of their own, laid out beside
/// `file` and given to `sink` one after the other; then `file` holds the rest and names them with their hashes. Without
/// a sink there is one file. Returns where each panel of the project stands, in the project's order. Throws
/// std::runtime_error with file name and reason when a font cannot be read or a file
/// cannot be written.
std::vector<PanelPage> write_dossier(const DossierContent& content, const DossierFonts& fonts,
                                     const std::filesystem::path& file, const DossierProgress& progress = {},
                                     const VolumeSink& sink = {});

/// The pages for the practice's own people: weights for lifting, and what the checks for the workshop find. Otherwise
/// as `write_dossier`.
void write_workshop(const DossierContent& content, const DossierFonts& fonts, const std::filesystem::path& file);

}  // namespace panel_dossier
