// Timber at openings.
#pragma once

namespace panel_dossier::thermal {

/// Room left round a window or door; timber behind it still belongs to the opening, m (common practice).
inline constexpr double kFittingGap_m = 0.025;

}  // namespace panel_dossier::thermal
