// Charring and remaining compression resistance of the studs: EN 1995-1-2:2004 3.4 and 4.2.2.
#pragma once

#include <string>
#include <vector>

#include "core/api/project.h"
#include "plugins/fire/build_up.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// State of the studs after the required time with fire on one face.
struct StudCharring {
  bool fire_inside = true;
  double charring_start_min = 0.0;     ///< tch = tf of the board on the fire's side
  double char_depth_mm = 0.0;          ///< dchar,n
  double zero_strength_factor = 0.0;   ///< k0
  double effective_depth_mm = 0.0;     ///< def
  bool sides_protected = false;        ///< stone wool keeps the fire off the sides of the studs
  bool restrained_along_wall = false;  ///< the board away from the fire is a wood panel; gypsum is not relied on
};

/// What of one stud or post remains.
struct RemainingStud {
  std::string name;
  double width_mm = 0.0;  ///< b, before the fire
  double depth_mm = 0.0;  ///< h, before the fire
  double length_m = 0.0;
  double remaining_width_mm = 0.0;  ///< 0 when burnt through
  double remaining_depth_mm = 0.0;
  double tributary_width_m = 0.0;  ///< bt: half the distance to the next full-length member, at an edge all of it
  double buckling_factor = 0.0;    ///< the smaller kc of EN 1995-1-1 (6.25) and (6.26) with the remaining section
  double resistance_n = 0.0;       ///< Nfi,Rd; 0 when burnt through
};

struct StudsInFire {
  StudCharring charring;
  std::vector<RemainingStud> studs;  ///< those as long as the longest
  std::vector<std::string> missing;  ///< not empty: the rest is incomplete
};

/// tch of the cassette's board; needs a board of a row in boards.csv.
double charring_start_min(const CassetteBoard& board, const Tables& tables);

/// `with_resistance` asks for strengths as well; without it only sizes are worked out.
StudsInFire studs_in_fire(const Panel& panel, const Project& project, const Cassette& cassette, const Tables& tables,
                          double time_min, bool fire_inside, bool with_resistance);

}  // namespace panel_dossier::fire
