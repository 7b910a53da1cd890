// What changed between two builds: the causes first, then the verdicts that moved, then the figures.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/trace/attribution.h"
#include "core/trace/causes.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

enum class ChangeKind { panel_added, panel_removed, verdict_moved, value_changed };

/// The words used on pages and in print: `panel added`, `panel removed`, `verdict moved`, `value changed`.
std::string_view to_string(ChangeKind kind);

struct Change {
  ChangeKind kind = ChangeKind::value_changed;
  std::string panel_mark;  ///< empty for the project
  std::string check;       ///< empty for a panel as a whole
  std::string before;      ///< value and verdict, or GlobalId of a panel; empty for what is new
  std::string after;       ///< the same; empty for what is gone
  bool worse = false;      ///< a verdict moved from pass or information to fail, evidence needed or not assessed, or
                           ///< a panel came that has one of these
  /// How far a number moved, as a share of what it was, with its sign; none for texts and for what was 0.
  std::optional<double> share = std::nullopt;
  CauseIndices causes = {};                              ///< empty: none can be named
  std::optional<Verdict> verdict_before = std::nullopt;  ///< of a finding that was there
  std::optional<Verdict> verdict_after = std::nullopt;   ///< of a finding that is there
};

/// `KIND, panel 'MARK', CHECK: BEFORE -> AFTER` on one line, led by `WORSE` where it is, without the fields that are
/// empty, and followed by how far a figure moved.
std::string to_string(const Change& change);

/// Which build stands on one side of a comparison.
struct ComparedBuild {
  std::string time_utc;
  IssueMark issue;
  HexDigest hash_tree_root;
};

/// `the build of 2026-11-25T02:00:00Z` or `issue P03 (for construction) of 2026-11-25T02:00:00Z`.
std::string to_string(const ComparedBuild& build);

struct Comparison {
  ComparedBuild before;
  ComparedBuild after;
  double least_share = 0.0;     ///< figures that moved by no more are counted only
  std::vector<Cause> causes;    ///< each with its effects; a change of two causes counts under both
  Effects not_attributed;       ///< changes for which no cause can be named
  std::vector<Change> changes;  ///< worse ones first, then by kind, mark and check

  bool nothing_changed() const { return causes.empty() && changes.empty(); }
  std::size_t worse() const;
  std::size_t count(ChangeKind kind) const;
  /// Whether the change is to be shown one by one: all are but figures that moved by no more than `least_share`.
  bool is_shown(const Change& change) const;
  /// Figures that are not.
  std::size_t small_figures() const;
};

/// The names of the change's causes, `not attributed` where there are none.
std::string causes_text(const Comparison& comparison, const Change& change);

/// Changes of one kind, check, cause and move of the verdict: what a person reads as one.
struct ChangeGroup {
  const Change* most = nullptr;    ///< the figure that moved most, or the first; lives as long as the comparison
  std::vector<std::string> marks;  ///< of the panels; empty for the project alone
  std::size_t count = 0;
};

/// Those changes that are shown, in their order; `value_changed` alone when `figures`, else the others.
std::vector<ChangeGroup> groups_of(const Comparison& comparison, bool figures);

/// `WORSE quarry.dust: pass -> evidence needed: 31 panels: E0-01, …` or, of figures, `quarry.depth: 59
/// figures, most in panel 'N0-02': 2.2 mm, pass -> 2.6 mm, pass (+18 %)`.
std::string to_string(const ChangeGroup& group);

/// Panels are matched by GlobalId and, where an export renewed those, by mark; findings by check, title and order. A
/// finding that is new or gone counts as a moved verdict: worse when it is new and neither pass nor information, or
/// gone and was one of them. A change stems from the causes that `Attribution` names; a figure of the project whose own
/// inputs lead to none from those of the panels' figures of the same check. The least share is the setting
/// `changes.least_move_percent` of the later build, 1 % without it.
Comparison compare(const ResultsDocument& before, const ResultsDocument& after);

}  // namespace panel_dossier
