#include "core/trace/history.h"

#include <nlohmann/json.hpp>
#include <stdexcept>
#include <utility>
#include <variant>

#include "core/api/finding/roles.h"
#include "core/pipeline/record/json.h"

namespace panel_dossier {

namespace {

using nlohmann::ordered_json;

ordered_json totals_to_json(const VerdictTotals& totals) {
  return {{"pass", totals.pass},
          {"fail", totals.fail},
          {"evidence_needed", totals.evidence_needed},
          {"not_assessed", totals.not_assessed},
          {"information", totals.information}};
}

VerdictTotals totals_from_json(const ordered_json& json) {
  return {member<std::size_t>(json, "pass"), member<std::size_t>(json, "fail"),
          member<std::size_t>(json, "evidence_needed"), member<std::size_t>(json, "not_assessed"),
          member<std::size_t>(json, "information")};
}

ordered_json figure_to_json(const HistoryFigure& figure) {
  return {{"role", figure.role}, {"title", figure.title}, {"value", figure.value}, {"unit", figure.unit}};
}

HistoryFigure figure_from_json(const ordered_json& json) {
  return {member<std::string>(json, "role"), member<std::string>(json, "title"), member<double>(json, "value"),
          member<std::string>(json, "unit")};
}

ordered_json entry_to_json(const HistoryEntry& entry) {
  return {{"time_utc", entry.time_utc},
          {"hash_tree_root", entry.hash_tree_root},
          {"issue", entry.issue.id},
          {"status", entry.issue.status},
          {"incomplete", entry.incomplete},
          {"panels", entry.panels},
          {"verdicts", totals_to_json(entry.verdicts)},
          {"causes", totals_to_json(entry.causes)},
          {"figures", json_array(entry.figures, figure_to_json)}};
}

HistoryEntry entry_from_json(const ordered_json& json) {
  HistoryEntry entry;
  entry.time_utc = member<std::string>(json, "time_utc");
  entry.hash_tree_root = member<std::string>(json, "hash_tree_root");
  entry.issue = {member<std::string>(json, "issue"), member<std::string>(json, "status")};
  entry.incomplete = member<bool>(json, "incomplete");
  entry.panels = member<std::size_t>(json, "panels");
  entry.verdicts = totals_from_json(member<ordered_json>(json, "verdicts"));
  entry.causes = totals_from_json(member<ordered_json>(json, "causes"));
  entry.figures = members(json, "figures", figure_from_json);
  return entry;
}

}  // namespace

HistoryEntry history_entry(const ResultsDocument& document, const std::vector<OpenPoint>& points) {
  HistoryEntry entry;
  entry.time_utc = document.build.time_utc;
  entry.hash_tree_root = document.build.hash_tree_root;
  entry.issue = document.build.issue;
  entry.incomplete = document.build.incomplete;
  entry.panels = document.panels.size();
  entry.verdicts = verdict_totals(document);
  entry.causes.fail = count_of(points, Verdict::fail);
  entry.causes.evidence_needed = count_of(points, Verdict::evidence_needed);
  entry.causes.not_assessed = count_of(points, Verdict::not_assessed);
  for (const std::string_view role : role::kAll) {
    const RecordedFinding* finding = finding_of_role(document.build, document.project_findings, role);
    if (finding == nullptr) continue;
    if (const auto* number = std::get_if<double>(&finding->value)) {
      entry.figures.push_back({std::string(role), finding->title, *number, finding->unit});
    }
  }
  return entry;
}

History::History(std::string_view text) {
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    if (line.empty()) continue;
    try {
      add(entry_from_json(ordered_json::parse(line)));
    } catch (const nlohmann::json::exception&) {
      ++damaged_lines_;
    } catch (const std::runtime_error&) {
      ++damaged_lines_;
    }
  }
}

void History::add(HistoryEntry entry) {
  if (!entries_.empty() && entries_.back().time_utc == entry.time_utc &&
      entries_.back().hash_tree_root == entry.hash_tree_root) {
    return;
  }
  entries_.push_back(std::move(entry));
  if (entries_.size() > kLongest) entries_.erase(entries_.begin());
}

std::string History::text() const {
  std::string text;
  for (const HistoryEntry& entry : entries_) text += entry_to_json(entry).dump() + "\n";
  return text;
}

}  // namespace panel_dossier
