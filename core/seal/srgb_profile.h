// The colours of the pages as an ICC profile.
#pragma once

#include <string>

namespace panel_dossier {

/// A profile of sRGB (IEC 61966-2-1:1999) of ICC version 4.2 (ISO 15076-1). Its curve is a formula and no table, which
/// readers that convert colours for every page invert without searching.
std::string srgb_profile();

}  // namespace panel_dossier
