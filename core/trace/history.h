// What each build of a project came to, from the first to the last: one line a build in a file beside the output.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "core/trace/open_points.h"
#include "core/trace/results_document.h"
#include "core/trace/verdict_totals.h"

namespace panel_dossier {

/// The project's figure of the check that claims a role.
struct HistoryFigure {
  std::string role;
  std::string title;
  double value = 0.0;
  std::string unit;
};

struct HistoryEntry {
  std::string time_utc;
  HexDigest hash_tree_root;
  IssueMark issue;
  bool incomplete = false;
  std::size_t panels = 0;
  VerdictTotals verdicts;
  VerdictTotals causes;  ///< open points by verdict; none of pass and information
  std::vector<HistoryFigure> figures;
};

/// The points must be those of the document.
HistoryEntry history_entry(const ResultsDocument& document, const std::vector<OpenPoint>& points);

/// In the order of the runs, which is that of time unless a clock went backwards. At most `kLongest` entries.
class History {
 public:
  static constexpr std::size_t kLongest = 1000;  ///< near three years of nights, 0.5 MB

  /// JSON Lines, one entry a line. A line that cannot be read, such as one that a full disk cut off, is left out and
  /// counted: the others are worth no less.
  explicit History(std::string_view text);

  const std::vector<HistoryEntry>& entries() const { return entries_; }
  std::size_t damaged_lines() const { return damaged_lines_; }

  /// Adds the entry at the end, unless the last one is of the same time and root; drops the first beyond `kLongest`.
  void add(HistoryEntry entry);

  std::string text() const;

 private:
  std::vector<HistoryEntry> entries_;
  std::size_t damaged_lines_ = 0;
};

}  // namespace panel_dossier
