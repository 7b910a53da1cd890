#include "plugins/quantities/takeoff/project_total.h"

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"

namespace panel_dossier::quantities {

namespace {

/// More marks than this make a reason unreadable; the panels' own findings name the rest.
constexpr std::size_t kMarksNamed = 10;

const Finding* find_check(const PanelFindings& panel, const std::string& check) {
  const auto found = std::find_if(panel.findings.begin(), panel.findings.end(),
                                  [&check](const Finding& finding) { return finding.check == check; });
  return found == panel.findings.end() ? nullptr : &*found;
}

std::optional<double> value_of(const PanelFindings& panel, const std::string& check) {
  const Finding* finding = find_check(panel, check);
  const double* value = finding == nullptr ? nullptr : std::get_if<double>(&finding->value);
  return value == nullptr ? std::nullopt : std::optional<double>(*value);
}

std::string unmeasured(const std::vector<PanelFindings>& panels, const std::string& check) {
  std::vector<std::string> marks;
  for (const PanelFindings& panel : panels) {
    if (!value_of(panel, check)) marks.push_back("'" + panel.panel->mark + "'");
  }
  if (marks.empty()) return {};
  std::string reason =
      "not assessed for " + std::to_string(marks.size()) + " of " + std::to_string(panels.size()) + " panels: ";
  for (std::size_t i = 0; i < marks.size() && i < kMarksNamed; ++i) reason += (i == 0 ? "" : ", ") + marks[i];
  if (marks.size() > kMarksNamed) reason += " and more";
  return reason + "; see each panel for what is missing";
}

struct GroupTotal {
  int panels = 0;
  ExactSum value;
};

Table by_storey_and_type(const TotalOf& what, const Project& project, const std::vector<PanelFindings>& panels) {
  // Keyed by the storey's place in the project so that storeys come in order of height.
  std::map<std::pair<std::size_t, std::string>, GroupTotal> groups;
  for (const PanelFindings& panel : panels) {
    GroupTotal& group = groups[{panel.panel->storey.value_or(project.storeys.size()), panel.panel->type}];
    ++group.panels;
    group.value.add(*value_of(panel, what.check));
  }
  Table table{
      "By storey and panel type", {{"storey", ""}, {"panel type", ""}, {"panels", ""}, {"total", what.unit}}, {}};
  for (const auto& [key, group] : groups) {
    const bool known = key.first < project.storeys.size();
    table.rows.push_back({known ? project.storeys[key.first].name : std::string("no storey"), key.second,
                          static_cast<double>(group.panels), group.value.total()});
  }
  return table;
}

Table merged(const TotalOf& what, const std::vector<PanelFindings>& panels) {
  Table table{what.merged_title, {}, {}};
  std::map<std::vector<std::string>, std::vector<ExactSum>> sums;
  for (const PanelFindings& panel : panels) {
    const Table& source = find_check(panel, what.check)->tables.front();
    table.columns = source.columns;
    for (const std::vector<Value>& row : source.rows) {
      std::vector<std::string> key;
      std::vector<double> numbers;
      for (const Value& cell : row) {
        if (const auto* text = std::get_if<std::string>(&cell)) key.push_back(*text);
        if (const auto* number = std::get_if<double>(&cell)) numbers.push_back(*number);
      }
      std::vector<ExactSum>& sum = sums[key];
      sum.resize(numbers.size());
      for (std::size_t i = 0; i < numbers.size(); ++i) sum[i].add(numbers[i]);
    }
  }
  for (const auto& [key, sum] : sums) {
    std::vector<Value> row(key.begin(), key.end());
    for (const ExactSum& total : sum) row.emplace_back(total.total());
    table.rows.push_back(std::move(row));
  }
  return table;
}

}  // namespace

Finding project_total(const TotalOf& what, const Project& project, const std::vector<PanelFindings>& panels) {
  FindingBuilder finding(what.check, what.title, "", what.clause);
  finding.decimals(what.decimals);
  if (panels.empty()) return finding.not_assessed("the project has no panels");
  const std::string reason = unmeasured(panels, what.check);
  if (!reason.empty()) return finding.not_assessed(reason);

  ExactSum total;
  for (const PanelFindings& panel : panels) total.add(*value_of(panel, what.check));
  finding.step("number of panels", "n", static_cast<double>(panels.size()), "");
  finding.step("total of all panels", "Σ", total.total(), what.unit);
  finding.table(by_storey_and_type(what, project, panels));
  if (!what.merged_title.empty()) finding.table(merged(what, panels));
  finding.note("The sum of the values of the panels, added exactly to the millionth of the unit.");
  return finding.inform(total.total(), what.unit);
}

}  // namespace panel_dossier::quantities
