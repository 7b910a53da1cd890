#include "core/intake/claims/model_claims.h"

#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "core/api/support/layer_coverage.h"
#include "core/api/support/parts_in_place.h"
#include "core/api/support/words.h"
#include "core/intake/claims/panel_overlaps.h"

namespace panel_dossier {

namespace {

/// Panels of one type mostly share a fault.
struct Told {
  const Panel* first = nullptr;
  const Panel* last = nullptr;
  std::size_t panels = 0;
};

/// A serial number is one panel's: where two have the same, it is nobody's.
void withhold_shared_serials(Project& project, Reporter& report) {
  constexpr const char* kSerial = "Pset_ManufacturerOccurrence.SerialNumber";
  std::map<std::string, std::vector<Panel*>> panels_of;
  for (Panel& panel : project.panels) {
    const auto serial = panel.properties.text("Pset_ManufacturerOccurrence", "SerialNumber");
    if (serial) panels_of[std::string(trimmed(serial->value))].push_back(&panel);
  }
  for (const auto& [serial, panels] : panels_of) {
    if (serial.empty() || panels.size() < 2) continue;
    std::vector<std::string> texts;
    for (const Panel* panel : panels) {
      const Origin& origin = panel->properties.all().find(kSerial)->second.origin;
      texts.push_back("'" + panel->mark + "' (" + place_in_words(origin) + ")");
    }
    const std::string fault = "serial number '" + serial + "' is that of panels " + joined(texts);
    const std::string advice = "give every panel its own serial number";
    const std::string why = joined({fault, advice}, "; ");
    for (Panel* panel : panels) panel->properties.withhold(kSerial, why);
    const Panel& first = *panels.front();
    report.add({Severity::warning,
                {},
                first.origin.line,
                0,
                first.origin.entity,
                first.global_id,
                fault + "; it is used for none of them",
                advice});
  }
}

}  // namespace

void find_contradictions(Project& project, Reporter& report) {
  std::map<std::string, Told> told;
  const auto note = [&](Panel& panel, const char* concerned, const std::string& text) {
    panel.contradictions.emplace(concerned, text + "; correct the export");
    Told& one = told[text];
    if (one.last == &panel) return;
    one.last = &panel;
    if (one.panels++ == 0) one.first = &panel;
  };
  for (Panel& panel : project.panels) {
    for (const std::string& text : layers_against_parts(panel)) note(panel, "layers", text);
    for (const std::string& text : parts_out_of_place(panel)) note(panel, "parts", text);
  }
  for (const PanelOverlap& overlap : find_panel_overlaps(project)) {
    for (const std::size_t index : {overlap.one, overlap.other}) {
      for (const char* concerned : {"layers", "parts"}) note(project.panels[index], concerned, overlap.text);
    }
  }
  withhold_shared_serials(project, report);
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
