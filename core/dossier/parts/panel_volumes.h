// A large dossier's pages of panels in volumes, by storey.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier {

/// Setting `dossier.volume_panels`, 500 without it: with more panels the dossier is written in volumes, none of more
/// than so many.
std::size_t most_panels_of_volume(const Settings& settings);

struct PanelVolume {
  std::string title;                ///< the storeys: `Ground floor to Second floor`
  std::vector<std::size_t> panels;  ///< indices into Project::panels
};

/// Storeys one after the other, from the lowest up, those without one last; as many in a volume as it takes. A storey
/// of more panels than `most` goes over several volumes. Requires `most` > 0.
std::vector<PanelVolume> panel_volumes(const Project& project, std::size_t most);

}  // namespace panel_dossier
