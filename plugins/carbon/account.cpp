#include "plugins/carbon/account.h"

#include <algorithm>

namespace panel_dossier::carbon {

std::string label_of(const Project& project, std::size_t material) {
  const std::string& name = project.materials[material].name;
  const auto end = project.materials.begin() + static_cast<std::ptrdiff_t>(material);
  const auto before =
      std::count_if(project.materials.begin(), end, [&](const Material& earlier) { return earlier.name == name; });
  return before == 0 ? name : name + " (" + std::to_string(before + 1) + ")";
}

}  // namespace panel_dossier::carbon
