// How close two parts of a model must be to count as meeting: one set of lengths for all plugins, so that a stud that
// touches a sheet for one check touches it for every other.
#pragma once

namespace panel_dossier::tolerance {

/// Faces and ends that meet in the workshop stand this far apart in the model at most: exports round to tenths of a
/// millimetre, and a turned or extruded shape carries some more.
inline constexpr double kModelling_m = 0.001;

/// Parts with a membrane or a tape between them bear on each other; boards are thicker than this.
inline constexpr double kMembrane_m = 0.003;

/// Edges and centre lines this close are one line of the frame: cutting and fitting of timber leave as much.
inline constexpr double kSameLine_m = 0.005;

}  // namespace panel_dossier::tolerance
