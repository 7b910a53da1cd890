// How far apart things may lie and still count as meeting, as fire sees them: gaps that flame finds are narrower than
// those that matter to a carpenter. core/api/support/tolerances.h holds the lengths that all plugins share.
#pragma once

namespace panel_dossier::fire {

/// Edges of sheets up to this far apart are a joint, open or not; further apart they leave the layer open: no joint
/// profile of boards is wider.
inline constexpr double kSheetsMeet_m = 0.020;

/// Cavities whose ends are no further apart run on from panel to panel: joints of panels are 10 to 20 mm wide, and
/// flame passes them.
inline constexpr double kCavityRunsOn_m = 0.050;

/// A cavity barrier covers its line when no more than this is bare: cutting and fitting.
inline constexpr double kBareLine_m = 0.010;

/// A cavity barrier this near to a line lies on it: barriers are about 100 mm wide.
inline constexpr double kBesideLine_m = 0.150;

/// Floors this near to foot or head of a panel belong to its edge.
inline constexpr double kAtEdge_m = 0.100;

/// A floor up to this far above the head is closed by the panel above.
inline constexpr double kFloorAboveHead_m = 0.500;

/// Lengths of the export are whole nanometres at best: what is at a limit must not fall out by rounding.
inline constexpr double kRounding_m = 1e-9;
inline constexpr double kRounding_mm = 1e-6;

}  // namespace panel_dossier::fire
