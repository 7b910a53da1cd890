#include <algorithm>
#include <array>
#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <tuple>

#include "core/api/finding/finding_builder.h"
#include "plugins/structural/checks.h"
#include "plugins/structural/fixings/fixings_checks.h"
#include "plugins/structural/lifting/lifting_checks.h"

namespace panel_dossier::structural {

namespace {

constexpr std::size_t kRows = 60;  ///< a page and a half; results.json holds the rest, panel by panel

struct Entry {
  const Panel* panel = nullptr;
  const Finding* finding = nullptr;
  double utilisation = 0.0;
};

/// Whether a check sets a load effect against a resistance; the others compare sizes, masses and movements.
bool is_resistance(const Finding& finding) {
  const std::array<std::string_view, 3> others{kFrameMovementCheck.id, kCraneCapacityCheck.id, kTransportSizeCheck.id};
  return std::find(others.begin(), others.end(), finding.check) == others.end();
}

/// Of resistances. Worst first; of equal ones in the order of marks and checks.
std::vector<Entry> sorted_entries(const std::vector<PanelFindings>& panels) {
  std::vector<Entry> entries;
  for (const PanelFindings& held : panels) {
    for (const Finding& finding : held.findings) {
      if (finding.utilisation && is_resistance(finding))
        entries.push_back({held.panel, &finding, *finding.utilisation});
    }
  }
  std::sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) {
    return std::tie(b.utilisation, a.panel->mark, a.finding->check) <
           std::tie(a.utilisation, b.panel->mark, b.finding->check);
  });
  return entries;
}

struct CheckSummary {
  std::string title;
  std::size_t panels = 0;
  std::size_t not_assessed = 0;
  double worst = 0.0;
  std::string worst_panel;
};

Table check_table(const std::vector<PanelFindings>& panels) {
  std::map<std::string, CheckSummary> summaries;
  for (const PanelFindings& held : panels) {
    for (const Finding& finding : held.findings) {
      if (!is_resistance(finding)) continue;
      const bool not_assessed = finding.verdict == Verdict::not_assessed;
      if (!finding.utilisation && !not_assessed) continue;
      CheckSummary& summary = summaries[finding.check];
      summary.title = finding.title;
      if (not_assessed) ++summary.not_assessed;
      if (!finding.utilisation) continue;
      ++summary.panels;
      if (summary.worst_panel.empty() || *finding.utilisation > summary.worst) {
        summary.worst = *finding.utilisation;
        summary.worst_panel = held.panel->mark;
      }
    }
  }
  Table table{"Checks",
              {{"check", ""}, {"panels", ""}, {"not assessed", ""}, {"largest utilisation", ""}, {"in panel", ""}},
              {}};
  for (const auto& [check, s] : summaries) {
    table.rows.push_back(
        {s.title, static_cast<double>(s.panels), static_cast<double>(s.not_assessed), s.worst, s.worst_panel});
  }
  return table;
}

}  // namespace

const CheckDeclaration kUtilisationCheck{
    .id = "structural.utilisation",
    .title = "Utilisation of all panels",
    .project_title = {},
    .sentence = "The largest utilisation of all checks that set a load effect against a resistance, over all panels.",
    .clause = "the clause of each check; design effect over resistance, EN 1990:2002 6.4.2",
    .scope = CheckScope::project,
    .limits = {"Checks without a utilisation, and those of sizes, masses and movements, are left out."}};

Finding utilisation_table(const std::vector<PanelFindings>& panels) {
  FindingBuilder builder(kUtilisationCheck, {});
  const std::vector<Entry> entries = sorted_entries(panels);
  if (entries.empty()) builder.missing("no structural check of any panel has a utilisation");
  Table table{"Resistances, worst first",
              {{"panel", ""}, {"type", ""}, {"check", ""}, {"utilisation", ""}, {"verdict", ""}},
              {}};
  for (std::size_t i = 0; i < std::min(entries.size(), kRows); ++i) {
    const Entry& entry = entries[i];
    table.rows.push_back({entry.panel->mark, entry.panel->type, entry.finding->title, entry.utilisation,
                          std::string(to_string(entry.finding->verdict))});
  }
  builder.step("utilisations of panels and checks", "", static_cast<double>(entries.size()), "")
      .table(check_table(panels))
      .table(std::move(table));
  if (entries.size() > kRows) {
    builder.note("The " + std::to_string(kRows) + " highest are printed; the pages of each panel hold its own.");
  }
  return builder.inform(entries.empty() ? 0.0 : entries.front().utilisation, "");
}

}  // namespace panel_dossier::structural
