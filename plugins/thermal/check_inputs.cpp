#include "plugins/thermal/check_inputs.h"

#include <algorithm>

namespace panel_dossier::thermal {

std::vector<CheckInput> resting_on(std::vector<CheckInput> own, const std::vector<CheckInput>& inherited) {
  for (const CheckInput& input : inherited) {
    const bool known = std::any_of(own.begin(), own.end(), [&](const CheckInput& other) {
      return other.source == input.source && other.name == input.name;
    });
    if (known) continue;
    own.push_back(input);
    own.back().optional = true;
  }
  return own;
}

}  // namespace panel_dossier::thermal
