#include "core/trace/batch_text.h"

#include <algorithm>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

std::string batch_line(const BatchSummary& batch) {
  std::string text = "batch '" + batch.reference + "'";
  if (!batch.material.empty()) text += " of '" + batch.material + "'";
  if (!batch.kinds.empty()) text += ": " + joined(batch.kinds);
  if (!batch.deliveries.empty()) text += "; delivered with " + joined(batch.deliveries);
  return text;
}

std::string panel_line(const ResultsDocument& results, const std::string& mark) {
  const auto panel = std::find_if(results.panels.begin(), results.panels.end(),
                                  [&](const PanelSummary& one) { return one.mark == mark; });
  if (panel == results.panels.end()) return "  panel '" + mark + "'\n";
  return "  panel '" + mark + "', " + panel->global_id + ", storey '" + panel->storey + "'\n";
}

}  // namespace

bool names_panel(const ResultsDocument& results, std::string_view name) {
  return std::any_of(results.panels.begin(), results.panels.end(),
                     [name](const PanelSummary& panel) { return panel.mark == name || panel.global_id == name; });
}

std::string batch_text(const ResultsDocument& results, std::string_view reference) {
  std::string text;
  for (const BatchSummary& batch : results.batches) {
    if (batch.reference != reference) continue;
    text += batch_line(batch) + "; in " + std::to_string(batch.marks.size()) + " of " +
            std::to_string(results.panels.size()) + " panels\n";
    for (const std::string& mark : batch.marks) text += panel_line(results, mark);
  }
  return text;
}

std::string batches_of_panel_text(const ResultsDocument& results, std::string_view mark) {
  std::string text;
  for (const BatchSummary& batch : results.batches) {
    const bool holds = std::find(batch.marks.begin(), batch.marks.end(), mark) != batch.marks.end();
    if (holds) text += batch_line(batch) + "\n";
  }
  return text;
}

}  // namespace panel_dossier
