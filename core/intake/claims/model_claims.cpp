#include "core/intake/claims/model_claims.h"

#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "core/api/support/layer_coverage.h"
#include "core/api/support/parts_in_place.h"

namespace panel_dossier {

namespace {

/// Panels of one type mostly share a fault.
struct Told {
  const Panel* first = nullptr;
  std::size_t panels = 0;
};

}  // namespace

void find_contradictions(Project& project, Reporter& report) {
  std::map<std::string, Told> told;
  const auto note = [&](Panel& panel, const char* concerned, const std::string& text) {
    panel.contradictions.emplace(concerned, text + "; correct the export");
    Told& one = told[text];
    if (one.panels++ == 0) one.first = &panel;
  };
  for (Panel& panel : project.panels) {
    for (const std::string& text : layers_against_parts(panel)) note(panel, "layers", text);
    for (const std::string& text : parts_out_of_place(panel)) note(panel, "parts", text);
  }
  for (const auto& [text, one] : told) {
    std::string message = "panel '" + one.first->mark + "'";
    if (one.panels > 1) message += " and " + std::to_string(one.panels - 1) + " more";
    message += ": " + text;
    report.add({Severity::warning,
                {},
                one.first->origin.line,
                0,
                one.first->origin.entity,
                one.first->global_id,
                std::move(message),
                "correct the export; no check that rests on it passes"});
  }
}

}  // namespace panel_dossier
