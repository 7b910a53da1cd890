#include "core/trace/compare.h"

#include <algorithm>
#include <map>
#include <set>
#include <stdexcept>
#include <tuple>
#include <utility>

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

class Comparison {
 public:
  std::vector<Change> take() {
    std::ranges::stable_sort(changes_, {}, [](const Change& change) {
      return std::tuple(!change.worse, change.kind, change.panel_mark, change.check);
    });
    return std::move(changes_);
  }

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
      if (!matched.contains(&panel)) {
        changes_.push_back({ChangeKind::panel_removed, panel.mark, {}, panel.global_id, {}, false});
      }
    }
  }

  void add_findings(const std::string& mark, const std::vector<RecordedFinding>& before,
                    const std::vector<RecordedFinding>& after) {
    const auto old_findings = by_key(before);
    const auto new_findings = by_key(after);
    for (const auto& [key, finding] : new_findings) {
      const auto old = old_findings.find(key);
      add_finding(mark, *finding, old == old_findings.end() ? nullptr : old->second, finding);
    }
    for (const auto& [key, finding] : old_findings) {
      if (!new_findings.contains(key)) add_finding(mark, *finding, finding, nullptr);
    }
  }

  /// An empty value: no finding cites the setting.
  void add_setting(const std::string& key, const std::string& before, const std::string& after) {
    if (before == after) return;
    const auto text = [&key](const std::string& value) { return value.empty() ? value : key + " = " + value; };
    changes_.push_back({ChangeKind::setting_changed, {}, {}, text(before), text(after), false});
  }

  void add_file(const std::string& name, const HexDigest& before, const HexDigest& after) {
    if (before == after) return;
    constexpr std::size_t kShownDigits = 16;
    const auto text = [&name](const HexDigest& hash) {
      return hash.empty() ? std::string() : name + " " + hash.substr(0, kShownDigits);
    };
    changes_.push_back({ChangeKind::input_file_changed, {}, {}, text(before), text(after), false});
  }

 private:
  std::vector<Change> changes_;

  void add_panel(const PanelSummary* before, const PanelSummary& after) {
    if (before == nullptr) {
      changes_.push_back({ChangeKind::panel_added, after.mark, {}, {}, after.global_id, false});
      return;
    }
    if (before->data_hash != after.data_hash) {
      changes_.push_back({ChangeKind::panel_data_changed, after.mark, {}, before->data_hash, after.data_hash, false});
    }
    add_findings(after.mark, before->findings, after.findings);
  }

  /// `named` is either of the two, whichever there is.
  void add_finding(const std::string& mark, const RecordedFinding& named, const RecordedFinding* before,
                   const RecordedFinding* after) {
    if (before != nullptr && after != nullptr && before->verdict == after->verdict) {
      if (before->value == after->value && before->unit == after->unit) return;
      const bool exact = shown(*before, false) == shown(*after, false);
      changes_.push_back(
          {ChangeKind::value_changed, mark, named.check, shown(*before, exact), shown(*after, exact), false});
      return;
    }
    const bool was_good = before == nullptr || is_good(before->verdict);
    const bool is_bad = after == nullptr || !is_good(after->verdict);
    changes_.push_back({ChangeKind::verdict_moved, mark, named.check, before != nullptr ? shown(*before, false) : "",
                        after != nullptr ? shown(*after, false) : "", was_good && is_bad});
  }
};

std::map<std::string, HexDigest> input_files(const BuildSummary& build) {
  std::map<std::string, HexDigest> files;
  files["export"] = build.export_sha256;
  files["settings"] = build.settings_sha256;
  for (const auto& file : build.settings_files) files["settings file " + file.name] = file.sha256;
  for (const auto& file : build.evidence) files["evidence " + file.name] = file.sha256;
  for (const auto& plugin : build.plugins) {
    files["plugin " + plugin.id] = plugin.sha256;
    for (const auto& table : plugin.data_tables) files["data table " + plugin.id + "/" + table.name] = table.sha256;
  }
  return files;
}

using CitedSettings = std::map<std::string, std::string>;  ///< value in words by key

void add_settings(const std::vector<RecordedFinding>& findings, CitedSettings& settings) {
  for (const RecordedFinding& finding : findings) {
    for (const DerivationInput& input : finding.derivation->inputs) {
      if (!input.origin || input.origin->kind != OriginKind::setting) continue;
      settings.try_emplace(input.origin->key, exact_value_text(input.value, input.unit));
    }
  }
}

CitedSettings cited_settings(const ResultsDocument& document) {
  CitedSettings settings;
  for (const PanelSummary& panel : document.panels) add_settings(panel.findings, settings);
  add_settings(document.project_findings, settings);
  return settings;
}

void add_settings(Comparison& comparison, const ResultsDocument& before, const ResultsDocument& after) {
  CitedSettings old_settings = cited_settings(before);
  for (const auto& [key, value] : cited_settings(after)) {
    const auto old = old_settings.find(key);
    comparison.add_setting(key, old == old_settings.end() ? std::string() : old->second, value);
    if (old != old_settings.end()) old_settings.erase(old);
  }
  for (const auto& [key, value] : old_settings) comparison.add_setting(key, value, {});
}

void add_files(Comparison& comparison, const BuildSummary& before, const BuildSummary& after) {
  auto old_files = input_files(before);
  for (const auto& [name, hash] : input_files(after)) {
    comparison.add_file(name, old_files[name], hash);
    old_files.erase(name);
  }
  for (const auto& [name, hash] : old_files) comparison.add_file(name, hash, {});
}

}  // namespace

std::string_view to_string(ChangeKind kind) {
  switch (kind) {
    case ChangeKind::setting_changed: return "setting changed";
    case ChangeKind::panel_added: return "panel added";
    case ChangeKind::panel_removed: return "panel removed";
    case ChangeKind::panel_data_changed: return "panel data changed";
    case ChangeKind::verdict_moved: return "verdict moved";
    case ChangeKind::value_changed: return "value changed";
    case ChangeKind::input_file_changed: return "input file changed";
  }
  throw std::logic_error("change kind without words");
}

std::string to_string(const Change& change) {
  std::string text(change.worse ? "WORSE " : "");
  text += to_string(change.kind);
  if (!change.panel_mark.empty()) text += ", panel '" + change.panel_mark + "'";
  if (!change.check.empty()) text += ", " + change.check;
  return text + ": " + (change.before.empty() ? "none" : change.before) + " -> " +
         (change.after.empty() ? "none" : change.after);
}

std::vector<Change> compare(const ResultsDocument& before, const ResultsDocument& after) {
  Comparison comparison;
  comparison.add_panels(before.panels, after.panels);
  comparison.add_findings({}, before.project_findings, after.project_findings);
  add_settings(comparison, before, after);
  add_files(comparison, before.build, after.build);
  return comparison.take();
}

}  // namespace panel_dossier
