#include "core/intake/panels/panel_choice.h"

namespace panel_dossier {

std::vector<std::string> choice_in_words(const std::vector<ChoiceCount>& choice) {
  std::size_t panels = 0;
  std::size_t all = 0;
  for (const ChoiceCount& count : choice) {
    all += count.elements;
    if (count.is_panel) panels += count.elements;
  }
  if (all == 0) return {};
  std::vector<std::string> lines{"chosen as panels: " + std::to_string(panels) + " of " + std::to_string(all)};
  for (const ChoiceCount& count : choice) {
    lines.push_back((count.is_panel ? "  in: " : "  out: ") + std::to_string(count.elements) + ", " + count.reason);
  }
  return lines;
}

}  // namespace panel_dossier
