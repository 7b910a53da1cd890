// What a person reads in the morning: five lines for a mail, and a page.
#pragma once

#include <array>
#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "core/trace/compare.h"
#include "core/trace/open_points.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

/// A heading and the lines below it.
struct SummarySection {
  std::string heading;
  std::vector<std::string> lines;
};

struct MorningSummary {
  std::string title;
  /// State, worse verdicts, causes, signature and issue, where the dossier is: each a word and its text.
  std::array<std::pair<std::string, std::string>, 5> lines;
  std::vector<SummarySection> sections;
};

/// What a build came to. `comparisons` are those of the dossier: the last of them is with the last build.
MorningSummary summary_of(const ResultsDocument& document, const std::vector<OpenPoint>& points,
                          const std::vector<Comparison>& comparisons, const std::filesystem::path& dossier);

/// Of a run that gave no build: the reason in one line, and what stands.
MorningSummary summary_of_failure(const std::string& state, const std::string& reason, const std::string& what_stands,
                                  const std::filesystem::path& log);

/// `WORD: TEXT` each, with a newline behind the last; control characters are made visible.
std::string five_lines(const MorningSummary& summary);

/// The five lines and the sections as plain text, or as a page of HTML: escaped, without scripts, of one file.
std::string summary_text(const MorningSummary& summary);
std::string summary_html(const MorningSummary& summary);

/// `FILE.txt` and `FILE.html`; an ending of these two is taken off FILE first.
std::pair<std::filesystem::path, std::filesystem::path> summary_files(const std::filesystem::path& file);

/// Writes both, each in one step. Throws std::runtime_error when one cannot be written.
void write_summary(const MorningSummary& summary, const std::filesystem::path& file);

}  // namespace panel_dossier
