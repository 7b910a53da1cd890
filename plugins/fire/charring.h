// Charring and the reduced cross-section of EN 1995-1-2:2004. Times in minutes and depths in millimetres, as there.
#pragma once

namespace panel_dossier::fire {

inline constexpr double kZeroStrengthLayer_mm = 7.0;  ///< d0, 4.2.2(1)

/// tch of a single gypsum board of type A, F or H in the field or at filled joints: 2.8·hp − 14, not below 0 (3.11).
double gypsum_charring_start_min(double thickness_mm);

/// tch = hp/β0,ρ,t of a wood panel (3.10), with kρ = √(450/ρ) and kh = √(20/hp) not below 1 (3.4 to 3.6).
double wood_panel_charring_start_min(double thickness_mm, double rate_mm_per_min, double density_kg_per_m3);

/// dchar at `time_min` of a member that is protected until `charring_start_min` by a layer that falls off then
/// (tf = tch, 3.4.3.2): twice the rate until the char reaches 25 mm or twice that time has passed, then the plain rate.
/// A start of 0 is an unprotected member. All arguments >= 0, rate > 0.
double char_depth_mm(double time_min, double charring_start_min, double rate_mm_per_min);

/// k0 of 4.2.2: t/20 up to 1 unprotected or when tch <= 20 min, else t/tch up to 1.
double zero_strength_factor(double time_min, double charring_start_min);

/// def = dchar + k0·d0 (4.1).
double effective_char_depth_mm(double time_min, double charring_start_min, double rate_mm_per_min);

}  // namespace panel_dossier::fire
