// Charring and remaining compression resistance of the studs: EN 1995-1-2:2004 3.4 and 4.2.2, annexes C and D.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/model/project.h"
#include "plugins/fire/calculation/cassette.h"
#include "plugins/fire/calculation/charring.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// Which rules the charring follows.
enum class CharringRule {
  insulated_stud,  ///< annex C: stone wool on both sides, the narrow face alone chars
  glass_wool,      ///< annex C: likewise until the board falls off, when the member fails
  three_faces,     ///< 3.4.3 with notional rates on three faces: a void cavity (annex D)
};

/// State of the studs after the required time with fire on one face.
struct StudCharring {
  bool fire_inside = true;
  CharringRule rule = CharringRule::three_faces;
  BoardTimes board;                       ///< the pair of times that is worse for the studs
  CharringPhases phases;                  ///< of the member that chars fastest: safe for the others
  double rate_mm_per_min = 0.0;           ///< of that member in table 3.1: β0 in annex C, βn on three faces
  double section_factor = 1.0;            ///< ks; 1 where annex C is not followed
  double slow_factor = 1.0;               ///< k2; without effect where tf = tch
  double pull_out_rate_mm_per_min = 0.0;  ///< of the timber that holds the board's fasteners between tch and tf
  double char_depth_mm = 0.0;             ///< dchar,n
  double zero_strength_factor = 0.0;      ///< k0
  double effective_depth_mm = 0.0;        ///< def
  double fall_off_depth_mm = 0.0;         ///< dchar,0 at tf
  double required_fastener_mm = 0.0;      ///< (3.16) at tf
  double back_min = 0.0;  ///< earliest time at which a member is charred to its back or, by glass wool, fails
  bool failed = false;    ///< glass wool, at tf or later: nothing of the members is counted
  /// The board away from the fire is a wood panel whose sheets and fasteners the export gives; gypsum is not relied on.
  bool restrained_along_wall = false;
};

/// Strength of a member in fire, 2.3 and EN 1995-1-1 6.3.2; rows of timber_in_fire.csv.
struct StrengthInFire {
  Sourced<double> compression_n_per_mm2;    ///< fc,0,k
  Sourced<double> modulus_fifth_n_per_mm2;  ///< E0,05
  Sourced<double> k_fi;
  double straightness_factor = 0.0;  ///< βc (6.29)
};

/// Buckling of a member in one direction, EN 1995-1-1 (6.21) and (6.25) to (6.29).
struct Buckling {
  double slenderness = 0.0;           ///< λ
  double relative_slenderness = 0.0;  ///< λrel
  std::optional<double> k;            ///< (6.27); none up to λrel = 0.3, where kc = 1
  double factor = 1.0;                ///< kc
};

/// For buckling in the direction of `depth_mm` > 0.
Buckling buckling_of(double length_m, double depth_mm, const StrengthInFire& strength);

/// What of one stud or post remains.
struct RemainingStud {
  std::string name;
  Origin origin;
  double width_mm = 0.0;  ///< b, before the fire
  double depth_mm = 0.0;  ///< h, before the fire
  double length_m = 0.0;
  double remaining_width_mm = 0.0;  ///< 0 when burnt through or failed
  double remaining_depth_mm = 0.0;
  double carried_left_m = 0.0;  ///< half the distance to the next full-length member, at an edge all of it
  double carried_right_m = 0.0;
  std::optional<StrengthInFire> strength;
  std::optional<Buckling> across_wall;  ///< in the direction of the depth; none when burnt through or failed
  std::optional<Buckling> along_wall;   ///< in that of the width; none where prevented as well
  double buckling_factor = 0.0;         ///< the smaller kc with the remaining section
  double resistance_n = 0.0;            ///< Nfi,Rd; 0 when burnt through or failed

  double tributary_width_m() const { return carried_left_m + carried_right_m; }  ///< bt
};

struct StudsInFire {
  StudCharring charring;
  std::vector<RemainingStud> studs;  ///< those as long as the longest
  std::vector<std::string> missing;  ///< not empty: the rest is incomplete
};

/// ks of annex C for the narrow face of a stud; none for one narrower than 38 mm.
std::optional<double> stud_section_factor(double width_mm, const Tables& tables);

/// `with_resistance` asks for strengths as well; without it only sizes are worked out. Nothing beyond 60 min.
StudsInFire studs_in_fire(const Panel& panel, const Project& project, const Cassette& cassette, const Tables& tables,
                          double time_min, bool fire_inside, bool with_resistance);

}  // namespace panel_dossier::fire
