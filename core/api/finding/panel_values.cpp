#include "core/api/finding/panel_values.h"

#include <algorithm>
#include <cstddef>

namespace panel_dossier {

std::string PanelValues::what_is_missing(std::string_view check) const {
  constexpr std::size_t kMostMarks = 5;
  if (whole()) return {};
  if (marks_without.empty()) return "the project has no panels";
  const std::size_t count = marks_without.size();
  std::string text = std::to_string(count) + (count == 1 ? " panel has no " : " panels have no ") + std::string(check);
  for (std::size_t i = 0; i < std::min(count, kMostMarks); ++i) text += (i == 0 ? ": " : ", ") + marks_without[i];
  if (count > kMostMarks) text += " and others";
  return text;
}

PanelValues panel_values(const std::vector<PanelFindings>& panels, std::string_view check) {
  PanelValues values;
  bool others = false;
  for (const PanelFindings& panel : panels) {
    const auto finding = std::find_if(panel.findings.begin(), panel.findings.end(),
                                      [&](const Finding& candidate) { return candidate.check == check; });
    const bool found = finding != panel.findings.end();
    const double* value = found ? std::get_if<double>(&finding->value) : nullptr;
    if (value != nullptr) {
      values.entries.push_back({panel.panel, &*finding, *value});
      continue;
    }
    values.marks_without.push_back(panel.panel->mark);
    others = others || !found || finding->verdict != Verdict::evidence_needed;
  }
  values.lacks_evidence_only = !values.marks_without.empty() && !others;
  return values;
}

}  // namespace panel_dossier
