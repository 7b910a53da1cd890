// What changed between two builds, and which verdicts moved.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/trace/results_document.h"

namespace panel_dossier {

enum class ChangeKind {
  setting_changed,
  panel_added,
  panel_removed,
  panel_data_changed,
  verdict_moved,
  value_changed,
  input_file_changed
};

/// The words used on pages and in print: `setting changed`, `panel added`, `panel removed`, `panel data changed`,
/// `verdict moved`, `value changed`, `input file changed`.
std::string_view to_string(ChangeKind kind);

struct Change {
  ChangeKind kind = ChangeKind::value_changed;
  std::string panel_mark;  ///< empty for the project
  std::string check;       ///< empty for a panel or file as a whole
  std::string before;      ///< value and verdict, key and value of a setting, or name and first 16 digits of the hash;
                           ///< empty for what is new
  std::string after;       ///< the same; empty for what is gone
  bool worse = false;      ///< a verdict moved from pass or information to fail, evidence needed or not assessed
};

/// `KIND, panel 'MARK', CHECK: BEFORE -> AFTER` on one line, led by `WORSE` where it is; without the
/// fields that are empty.
std::string to_string(const Change& change);

/// Panels are matched by GlobalId and, where an export renewed those, by mark; findings by check, title and order. A
/// finding that is new or gone counts as a moved verdict: worse when it is new and neither pass nor information, or
/// gone and was one of them. A setting is compared where findings cite it. Ordered: worse verdicts first, then by kind,
/// mark and check.
std::vector<Change> compare(const ResultsDocument& before, const ResultsDocument& after);

}  // namespace panel_dossier
