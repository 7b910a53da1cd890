// How much of each material a panel holds, from the take-off that mass and loads use too.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/model/panel.h"
#include "core/api/model/project.h"

namespace panel_dossier::carbon {

struct MaterialAmount {
  std::size_t material = 0;         ///< index into Project::materials
  std::optional<double> mass_kg;    ///< none when a part of it has neither weight nor density
  std::optional<double> volume_m3;  ///< none when a part of it is known by weight alone
  std::optional<double> pieces;     ///< none when it is measured as a layer
};

struct PanelAmounts {
  std::vector<MaterialAmount> materials;  ///< in the project's order of materials
  std::vector<std::string> missing;       ///< parts without material, layers without part, an empty panel
  std::vector<std::string> fillings;      ///< windows and doors fitted in the workshop, which have no material
};

PanelAmounts measure_amounts(const Panel& panel, const Project& project);

}  // namespace panel_dossier::carbon
