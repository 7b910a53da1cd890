// Numbers in messages, the same in every locale.
#pragma once

#include <string>

namespace panel_dossier {

/// `2.5 m`; at most four decimals, without trailing zeros.
std::string metres(double value_m);

}  // namespace panel_dossier
