// What changed between two builds, and which verdicts moved.
#pragma once

#include <string>
#include <vector>

#include "core/trace/results_document.h"

namespace panel_dossier {

enum class ChangeKind {
  panel_added,
  panel_removed,
  panel_data_changed,
  verdict_moved,
  value_changed,
  input_file_changed
};

struct Change {
  ChangeKind kind = ChangeKind::value_changed;
  std::string panel_mark;  ///< empty for the project
  std::string check;       ///< empty for a panel or file as a whole
  std::string before;      ///< value and verdict, or hash
  std::string after;
  bool worse = false;  ///< a verdict moved from pass or information to fail, evidence needed or not assessed
};

/// Ordered: worse verdicts first, then by kind, mark and check.
std::vector<Change> compare(const ResultsDocument& before, const ResultsDocument& after);

}  // namespace panel_dossier
