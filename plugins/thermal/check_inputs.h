// What checks declare to read, where they rest on the calculation of another one.
#pragma once

#include <vector>

#include "core/api/finding/check_declaration.h"

namespace panel_dossier::thermal {

/// `own` and behind it what else the check rests on, each input once. What is inherited is called optional: the check
/// that reads it names it when it is missing, and this one then says that the other is not assessed.
std::vector<CheckInput> resting_on(std::vector<CheckInput> own, const std::vector<CheckInput>& inherited);

}  // namespace panel_dossier::thermal
