#include "core/trace/compare.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <stdexcept>
#include <tuple>
#include <utility>
#include <variant>

#include "core/api/support/words.h"
#include "core/trace/value_text.h"

namespace panel_dossier {

namespace {

bool is_good(Verdict verdict) {
  return verdict == Verdict::pass || verdict == Verdict::information;
}

std::string shown(const RecordedFinding& finding, bool exact) {
  const std::string value = exact ? exact_value_text(finding.value, finding.unit)
                                  : value_text(finding.value, finding.unit, finding.derivation->decimals);
  const std::string verdict(to_string(finding.verdict));
  return finding.value.index() == 0 ? verdict : value + ", " + verdict;
}

using FindingKey = std::tuple<std::string, std::string, std::size_t>;

/// Findings by check, and where a check stands several times by title; the last member numbers those that share both,
/// such as one a lintel. A check that stands once stays itself when its title is reworded.
std::map<FindingKey, const RecordedFinding*> by_key(const std::vector<RecordedFinding>& findings) {
  std::map<std::string_view, std::size_t> times;
  for (const auto& finding : findings) ++times[finding.check];
  std::map<FindingKey, const RecordedFinding*> keyed;
  for (const auto& finding : findings) {
    const std::string title = times[finding.check] > 1 ? finding.title : std::string();
    std::size_t ordinal = 0;
    while (!keyed.try_emplace({finding.check, title, ordinal}, &finding).second) ++ordinal;
  }
  return keyed;
}

/// Panels under one of their names.
class PanelLookup {
 public:
  PanelLookup(const std::vector<PanelSummary>& panels, std::string PanelSummary::*name) {
    for (const auto& panel : panels) panels_.try_emplace(panel.*name, &panel);
  }

  /// Null when there is none.
  const PanelSummary* find(const std::string& name) const {
    const auto found = panels_.find(name);
    return found == panels_.end() ? nullptr : found->second;
  }

 private:
  std::map<std::string_view, const PanelSummary*> panels_;
};

/// 1 %, where the settings say nothing.
constexpr double kDefaultLeastShare = 0.01;

double least_share_of(const BuildSummary& build) {
  if (!build.settings) return kDefaultLeastShare;
  const auto found = build.settings->find("changes.least_move_percent");
  if (found == build.settings->end()) return kDefaultLeastShare;
  const auto* percent = std::get_if<double>(&found->second);
  return percent == nullptr ? kDefaultLeastShare : *percent / 100.0;
}

/// Relative to what the number was.
std::optional<double> share_of(const RecordedFinding& before, const RecordedFinding& after) {
  const auto* old_number = std::get_if<double>(&before.value);
  const auto* new_number = std::get_if<double>(&after.value);
  if (old_number == nullptr || new_number == nullptr || *old_number == 0.0 || before.unit != after.unit) {
    return std::nullopt;
  }
  return (*new_number - *old_number) / std::fabs(*old_number);
}

bool has_open_finding(const PanelSummary& panel) {
  return std::ranges::any_of(panel.findings, [](const RecordedFinding& finding) { return !is_good(finding.verdict); });
}

ComparedBuild compared(const BuildSummary& build) {
  return {build.time_utc, build.issue, build.hash_tree_root};
}

class Comparer {
 public:
  Comparer(const BuildSummary& before, const BuildSummary& after)
      : comparison_{compared(before), compared(after), least_share_of(after), causes_between(before, after), {}, {}},
        attribution_(comparison_.causes) {}

  void add_panels(const std::vector<PanelSummary>& before, const std::vector<PanelSummary>& after) {
    const PanelLookup old_by_id(before, &PanelSummary::global_id);
    const PanelLookup old_by_mark(before, &PanelSummary::mark);
    const PanelLookup new_by_id(after, &PanelSummary::global_id);
    std::set<const PanelSummary*> matched;
    for (const auto& panel : after) {
      const PanelSummary* old = old_by_id.find(panel.global_id);
      if (old == nullptr) {
        old = old_by_mark.find(panel.mark);
        if (old != nullptr && new_by_id.find(old->global_id) != nullptr) old = nullptr;
      }
      matched.insert(old);
      add_panel(old, panel);
    }
    for (const auto& panel : before) {
      if (matched.contains(&panel)) continue;
      touched_.push_back(panel.mark);
      add({ChangeKind::panel_removed, panel.mark, {}, panel.global_id, {}}, attribution_.causes_of_panels());
    }
  }

  /// Of the project, after those of the panels.
  void add_project(const std::vector<RecordedFinding>& before, const std::vector<RecordedFinding>& after) {
    is_project_ = true;
    add_findings({}, before, after);
  }

  Comparison take() {
    std::ranges::stable_sort(comparison_.changes, {}, [](const Change& change) {
      return std::tuple(!change.worse, change.kind, change.panel_mark, change.check);
    });
    for (Cause& cause : comparison_.causes) {
      if (cause.kind == CauseKind::export_file) cause.panels = touched_;
    }
    return std::move(comparison_);
  }

 private:
  Comparison comparison_;
  Attribution attribution_;
  std::vector<std::string> touched_;                        ///< marks of panels whose data changed, came or went
  std::map<std::string, std::set<std::size_t>> of_checks_;  ///< causes of the panels' changes, by check
  bool is_project_ = false;

  static void count(const Change& change, Effects& effects) {
    ++(change.kind == ChangeKind::value_changed ? effects.figures : effects.verdicts);
    if (change.worse) ++effects.worse;
  }

  void add(Change change, CauseIndices causes, const RecordedFinding* before = nullptr,
           const RecordedFinding* after = nullptr) {
    change.causes = std::move(causes);
    if (before != nullptr) change.verdict_before = before->verdict;
    if (after != nullptr) change.verdict_after = after->verdict;
    if (change.causes.empty()) count(change, comparison_.not_attributed);
    for (const std::size_t cause : change.causes) count(change, comparison_.causes[cause].effects);
    comparison_.changes.push_back(std::move(change));
  }

  void add_panel(const PanelSummary* before, const PanelSummary& after) {
    if (before == nullptr) {
      touched_.push_back(after.mark);
      add({ChangeKind::panel_added, after.mark, {}, {}, after.global_id, has_open_finding(after)},
          attribution_.causes_of_panels());
      return;
    }
    if (before->data_hash != after.data_hash) touched_.push_back(after.mark);
    add_findings(after.mark, before->findings, after.findings);
  }

  void add_findings(const std::string& mark, const std::vector<RecordedFinding>& before,
                    const std::vector<RecordedFinding>& after) {
    const auto old_findings = by_key(before);
    const auto new_findings = by_key(after);
    for (const auto& [key, finding] : new_findings) {
      const auto old = old_findings.find(key);
      add_finding(mark, old == old_findings.end() ? nullptr : old->second, finding);
    }
    for (const auto& [key, finding] : old_findings) {
      if (!new_findings.contains(key)) add_finding(mark, finding, nullptr);
    }
  }

  /// Either may be null, not both.
  void add_finding(const std::string& mark, const RecordedFinding* before, const RecordedFinding* after) {
    const std::string& check = (after != nullptr ? after : before)->check;
    if (before != nullptr && after != nullptr && before->verdict == after->verdict) {
      if (before->value == after->value && before->unit == after->unit) return;
      const bool exact = shown(*before, false) == shown(*after, false);
      add({ChangeKind::value_changed, mark, check, shown(*before, exact), shown(*after, exact), false,
           share_of(*before, *after)},
          causes_of(check, before, after), before, after);
      return;
    }
    const bool was_good = before == nullptr || is_good(before->verdict);
    const bool is_bad = after == nullptr || !is_good(after->verdict);
    add({ChangeKind::verdict_moved, mark, check, before != nullptr ? shown(*before, false) : "",
         after != nullptr ? shown(*after, false) : "", was_good && is_bad},
        causes_of(check, before, after), before, after);
  }

  CauseIndices causes_of(const std::string& check, const RecordedFinding* before, const RecordedFinding* after) {
    CauseIndices causes = attribution_.causes_of(before, after);
    std::set<std::size_t>& of_check = of_checks_[check];
    if (!is_project_) of_check.insert(causes.begin(), causes.end());
    // A total has the panels' figures for inputs, and does not list them.
    if (is_project_ && causes.empty()) causes.assign(of_check.begin(), of_check.end());
    return causes;
  }
};

constexpr std::size_t kMarksInGroup = 6;

std::string percent_text(double share) {
  const double percent = share * 100.0;
  const std::string text = value_text(std::fabs(percent), "", std::fabs(percent) < 10.0 ? 1 : 0);
  return (percent < 0.0 ? "-" : "+") + text + " %";
}

}  // namespace

std::string_view to_string(ChangeKind kind) {
  switch (kind) {
    case ChangeKind::panel_added: return "panel added";
    case ChangeKind::panel_removed: return "panel removed";
    case ChangeKind::verdict_moved: return "verdict moved";
    case ChangeKind::value_changed: return "value changed";
  }
  throw std::logic_error("change kind without words");
}

std::string to_string(const Change& change) {
  std::string text(change.worse ? "WORSE " : "");
  text += to_string(change.kind);
  if (!change.panel_mark.empty()) text += ", panel '" + change.panel_mark + "'";
  if (!change.check.empty()) text += ", " + change.check;
  text +=
      ": " + (change.before.empty() ? "none" : change.before) + " -> " + (change.after.empty() ? "none" : change.after);
  return change.share ? text + " (" + percent_text(*change.share) + ")" : text;
}

std::string to_string(const ComparedBuild& build) {
  if (!build.issue.is_issue()) return "the build of " + build.time_utc;
  return "issue " + build.issue.id + (build.issue.status.empty() ? "" : " (" + build.issue.status + ")") + " of " +
         build.time_utc;
}

std::size_t Comparison::worse() const {
  return static_cast<std::size_t>(std::ranges::count_if(changes, &Change::worse));
}

std::size_t Comparison::count(ChangeKind kind) const {
  return static_cast<std::size_t>(std::ranges::count(changes, kind, &Change::kind));
}

bool Comparison::is_shown(const Change& change) const {
  return change.kind != ChangeKind::value_changed || !change.share || std::fabs(*change.share) > least_share;
}

std::size_t Comparison::small_figures() const {
  return static_cast<std::size_t>(
      std::ranges::count_if(changes, [this](const Change& change) { return !is_shown(change); }));
}

std::vector<ChangeGroup> groups_of(const Comparison& comparison, bool figures) {
  using Key = std::tuple<ChangeKind, std::string, bool, std::optional<Verdict>, std::optional<Verdict>, CauseIndices>;
  const auto extent = [](const Change& change) { return change.share ? std::fabs(*change.share) : 0.0; };
  std::vector<ChangeGroup> groups;
  std::map<Key, std::size_t> places;
  for (const Change& change : comparison.changes) {
    if ((change.kind == ChangeKind::value_changed) != figures || !comparison.is_shown(change)) continue;
    const auto [place, is_new] = places.try_emplace(
        Key{change.kind, change.check, change.worse, change.verdict_before, change.verdict_after, change.causes},
        groups.size());
    if (is_new) groups.push_back({&change, {}, 0});
    ChangeGroup& group = groups[place->second];
    if (extent(change) > extent(*group.most)) group.most = &change;
    if (!change.panel_mark.empty()) group.marks.push_back(change.panel_mark);
    ++group.count;
  }
  return groups;
}

std::string to_string(const ChangeGroup& group) {
  const Change& change = *group.most;
  if (group.count == 1) return to_string(change);
  if (change.kind == ChangeKind::value_changed) {
    return change.check + ": " + std::to_string(group.count) + " figures, most: " + to_string(change);
  }
  const auto word = [](const std::optional<Verdict>& verdict) {
    return verdict ? std::string(to_string(*verdict)) : std::string("none");
  };
  std::string text = change.worse ? "WORSE " : "";
  text += change.check.empty()
              ? std::string(to_string(change.kind))
              : change.check + ": " + word(change.verdict_before) + " -> " + word(change.verdict_after);
  text += ": " + std::to_string(group.marks.size()) + " panels: " + list_some(group.marks, kMarksInGroup);
  return group.count > group.marks.size() ? text + " and the project" : text;
}

std::string causes_text(const Comparison& comparison, const Change& change) {
  std::vector<std::string> names;
  for (const std::size_t index : change.causes) {
    const Cause& cause = comparison.causes.at(index);
    names.push_back(std::string(to_string(cause.kind)) + " " + cause.name);
  }
  return names.empty() ? "not attributed" : joined(names);
}

Comparison compare(const ResultsDocument& before, const ResultsDocument& after) {
  Comparer comparer(before.build, after.build);
  comparer.add_panels(before.panels, after.panels);
  comparer.add_project(before.project_findings, after.project_findings);
  return comparer.take();
}

}  // namespace panel_dossier
