// When charring starts behind a board and when the board falls off: EN 1995-1-2:2004 3.4.3.3, 3.4.3.4, annexes C and D.
#pragma once

#include <vector>

#include "plugins/fire/calculation/build_up.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

/// Minutes of the standard fire; 0 <= start_min <= fall_off_min.
struct BoardTimes {
  double start_min = 0.0;     ///< tch
  double fall_off_min = 0.0;  ///< tf
  bool early = false;         ///< a wood panel taken to fall off 4 min before it is charred through
};

/// tch by 3.4.3.3 of the cassette's board; needs a board of a row in boards.csv.
double charring_start_min(const CassetteBoard& board, const Tables& tables);

/// Every pair that may hold. A gypsum board has one: tf = tch, but for type F, where a test gives the failure time and
/// the export the fasteners' length, the earlier of that time and pull-out (C.9). A wood panel has two: tf = tch =
/// hp/β0,ρ,t by 3.4.3, and 4 min less for both, as annexes C and D are recalled. Which is safe depends on the time
/// asked for, so both are tried. `slow_mm_per_min` is the rate of the timber between tch and tf.
std::vector<BoardTimes> board_times(const CassetteBoard& board, const Tables& tables, double slow_mm_per_min);

}  // namespace panel_dossier::fire
