#include "plugins/quantities/takeoff/project_total.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "plugins/quantities/cutting/part_names.h"

namespace panel_dossier::quantities {

namespace {

/// More marks than this make a reason unreadable; the panels' own findings name the rest.
constexpr std::size_t kMarksNamed = 10;

std::optional<double> number_of(const PanelFindings& panel, const std::string& check) {
  const auto found = std::find_if(panel.findings.begin(), panel.findings.end(),
                                  [&check](const Finding& finding) { return finding.check == check; });
  const double* value = found == panel.findings.end() ? nullptr : std::get_if<double>(&found->value);
  return value == nullptr ? std::nullopt : std::optional<double>(*value);
}

std::string unmeasured(const std::vector<PanelFindings>& panels, const std::string& check) {
  std::vector<std::string> marks;
  for (const PanelFindings& panel : panels) {
    if (!number_of(panel, check)) marks.push_back("'" + panel.panel->mark + "'");
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
    group.value.add(*number_of(panel, what.check.id));
  }
  Table table{
      "By storey and panel type", {{"storey", ""}, {"panel type", ""}, {"panels", ""}, {"total", what.unit}}, {}};
  for (const auto& [key, group] : groups) {
    table.rows.push_back(
        {storey_name(project, key.first), key.second, static_cast<double>(group.panels), group.value.total()});
  }
  return table;
}

}  // namespace

Finding project_total(const TotalOf& what, const Project& project, const std::vector<PanelFindings>& panels,
                      const std::function<Table()>& merged) {
  FindingBuilder finding(what.check, "");
  finding.clause(kSumOverPanels).decimals(what.decimals);
  if (panels.empty()) return finding.not_assessed("the project has no panels");
  const std::string reason = unmeasured(panels, what.check.id);
  if (!reason.empty()) return finding.not_assessed(reason);

  ExactSum total;
  for (const PanelFindings& panel : panels) total.add(*number_of(panel, what.check.id));
  finding.step("number of panels", "n", static_cast<double>(panels.size()), "");
  finding.step("total of all panels", "Σ", total.total(), what.unit, "Σ = sum(total)");
  finding.table(by_storey_and_type(what, project, panels));
  if (merged) finding.table(merged());
  finding.note("The sum of the values of the panels, added exactly to the millionth of the unit.");
  return finding.inform(total.total(), what.unit);
}

}  // namespace panel_dossier::quantities
