#include "core/dossier/parts/panel_volumes.h"

#include <algorithm>
#include <utility>

namespace panel_dossier {

std::size_t most_panels_of_volume(const Settings& settings) {
  constexpr std::size_t kMostPanels = 500;
  const auto set = settings.number("dossier.volume_panels");
  return set && set->value >= 1.0 ? static_cast<std::size_t>(set->value) : kMostPanels;
}

std::vector<PanelVolume> panel_volumes(const Project& project, std::size_t most) {
  std::vector<std::vector<std::size_t>> by_storey(project.storeys.size() + 1);
  for (std::size_t i = 0; i < project.panels.size(); ++i)
    by_storey[project.panels[i].storey.value_or(project.storeys.size())].push_back(i);
  std::vector<PanelVolume> volumes;
  std::string first_storey;  // of the last volume
  for (std::size_t storey = 0; storey < by_storey.size(); ++storey) {
    const std::vector<std::size_t>& panels = by_storey[storey];
    if (panels.empty()) continue;
    const std::string name = storey < project.storeys.size() ? project.storeys[storey].name : "without a storey";
    if (!volumes.empty() && volumes.back().panels.size() + panels.size() <= most) {
      volumes.back().panels.insert(volumes.back().panels.end(), panels.begin(), panels.end());
      volumes.back().title = first_storey;
      volumes.back().title.append(" to ").append(name);
      continue;
    }
    const std::size_t pieces = (panels.size() + most - 1) / most;
    for (std::size_t piece = 0; piece < pieces; ++piece) {
      const auto from = panels.begin() + static_cast<std::ptrdiff_t>(piece * most);
      const auto to = panels.begin() + static_cast<std::ptrdiff_t>(std::min(panels.size(), (piece + 1) * most));
      std::string title = name;
      if (pieces > 1) title += ", " + std::to_string(piece + 1) + " of " + std::to_string(pieces);
      first_storey = title;
      volumes.push_back({std::move(title), {from, to}});
    }
  }
  return volumes;
}

}  // namespace panel_dossier
