// Charring of timber, and when it starts behind a board and the board falls off: EN 1995-1-2:2004 3.4, annexes C and D.
// Times in minutes and depths in millimetres, as there.
#pragma once

#include <optional>
#include <vector>

#include "plugins/fire/calculation/cassette.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

inline constexpr double kZeroStrengthLayer_mm = 7.0;    ///< d0, 4.2.2(1)
inline constexpr double kLeastPenetration_mm = 10.0;    ///< la, 3.4.3.4 and C2.3: fastener in unburnt timber
inline constexpr double kInsulatedSectionFactor = 1.5;  ///< kn, C2.1: notional from one-dimensional depth
inline constexpr double kJointOverStud = 1.15;          ///< C2.3: a board's joint over the stud hastens pull-out
inline constexpr double kEarlyFallOff_min = 4.0;  ///< annexes C and D: tf = hp/β0 − 4 of wood panels (from memory)
inline constexpr double kAnnexesCAndDLimit_min = 60.0;  ///< longest standard fire covered, C1(1) and D1(1)

/// tch of a single gypsum board of type A, F or H: 2.8·hp − 14 in the field and at filled or narrow joints (3.11),
/// 2.8·hp − 23 beside joints open by more than 2 mm (3.12); not below 0.
double gypsum_charring_start_min(double thickness_mm, bool beside_open_joint = false);

/// kρ = √(450/ρk) of a wood panel (3.5); ρk is the characteristic density, > 0.
double density_factor(double density_kg_per_m3);
/// kh = √(20/hp), not below 1, of a wood panel (3.6).
double thickness_factor(double thickness_mm);
/// tch = hp/β0,ρ,t of a wood panel (3.10), with β0,ρ,t = β0·kρ·kh (3.4).
double wood_panel_charring_start_min(double thickness_mm, double rate_mm_per_min, double density_kg_per_m3);

/// k2 behind one board of type F: 1 − 0.018·hp (3.7), for members protected on all charring faces.
double slow_factor(double gypsum_mm);
/// k2 of studs with filled cavities: 1.05 − 0.0073·hp (C.3), the larger of (C.3) and (C.4) for boards up to 50 mm.
double insulated_slow_factor(double gypsum_mm);
/// k3 of studs with filled cavities: 1 + 0.036·tf (C.6), tf in minutes.
double insulated_fast_factor(double fall_off_min);

/// Charring of one member from one face: none until tch, slow until tf, fast until ta, then the plain rate. Rates in
/// mm/min, > 0; times >= 0 and in this order.
struct CharringPhases {
  double start_min = 0.0;         ///< tch
  double fall_off_min = 0.0;      ///< tf
  double plain_from_min = 0.0;    ///< ta
  double slow_mm_per_min = 0.0;   ///< k2·β
  double fast_mm_per_min = 0.0;   ///< k3·β
  double plain_mm_per_min = 0.0;  ///< β; as the fast rate where no slower phase follows

  /// dchar at `time_min`.
  double depth_mm(double time_min) const;
  /// Time at which the char reaches `depth_mm` > 0.
  double time_min(double depth_mm) const;
};

/// 3.4.3.2: k2 from tch to tf, k3 = 2 from tf until the char is 25 mm deep (3.9), where tf = tch at most until 2·tf
/// (3.8), then βn. A member without protection has tch = tf = 0.
CharringPhases protected_member(double start_min, double fall_off_min, double rate_mm_per_min, double slow_factor);

/// Annex C, narrow face of a stud between stone wool: ks·kn·k2·β0 from tch to tf, ks·kn·k3·β0 after it (C.1, C.2). No
/// slower phase follows. `section_factor` is ks of table C1.
CharringPhases insulated_stud(double start_min, double fall_off_min, double one_dimensional_mm_per_min,
                              double section_factor, double slow_factor);

/// Least length of a fastener that holds a board until `char_mm` of timber is lost behind it (3.16): hp + dchar,0 + la.
double required_fastener_length_mm(double board_mm, double char_mm);

/// tf by pull-out: the time at which a fastener of this length is held by la of unburnt timber only (C.9); tch for one
/// that is too short from the start. `slow_mm_per_min` is the rate between tch and tf.
double pull_out_min(double start_min, double fastener_mm, double board_mm, double slow_mm_per_min);

/// Minutes of the standard fire; 0 <= start_min <= fall_off_min.
struct BoardTimes {
  double start_min = 0.0;              ///< tch
  double fall_off_min = 0.0;           ///< tf
  bool early = false;                  ///< a wood panel taken to fall off 4 min before it is charred through
  std::optional<double> pull_out_min;  ///< (C.9), where a tested time and the fasteners' length are given
};

/// The board is a wood panel, which chars; else gypsum.
bool is_wood_panel(const CassetteBoard& board, const Tables& tables);

/// tch by 3.4.3.3 of the cassette's board; needs a board of a row in boards.csv.
double charring_start_min(const CassetteBoard& board, const Tables& tables);

/// Every pair that may hold. A gypsum board has one: tf = tch, but for type F, where a test gives the failure time and
/// the export the fasteners' length, the earlier of that time and pull-out (C.9). A wood panel has two: tf = tch =
/// hp/β0,ρ,t by 3.4.3, and 4 min less for both, as annexes C and D are recalled. Which is safe depends on the time
/// asked for, so both are tried. `slow_mm_per_min` is the rate of the timber between tch and tf.
std::vector<BoardTimes> board_times(const CassetteBoard& board, const Tables& tables, double slow_mm_per_min);

/// k0 of 4.2.2: t/20 up to 1 unprotected or when tch <= 20 min, else t/tch up to 1.
double zero_strength_factor(double time_min, double charring_start_min);

}  // namespace panel_dossier::fire
