// How cladding lies on its battens: the lines that carry it, how much of it each carries, and how many fixings that
// asks.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/panel.h"

namespace panel_dossier::structural {

/// The battens between the framing or sheathing and the cladding of a panel.
struct CladdingLines {
  std::vector<const Part*> cladding;
  std::vector<const Part*> battens;  ///< all outside of the studs and posts
  /// Width of cladding that the hardest loaded batten carries in m: half the way to its neighbour, or all to the edge
  /// of the piece, on either side, within one piece of cladding.
  double width_m = 0.0;
  double cladding_length_m = 0.0;  ///< of battens behind pieces of cladding, all pieces together
  double batten_length_m = 0.0;    ///< of all battens
  /// Why it cannot be told: parts without a shape, cladding held by fewer than two battens, battens in several layers,
  /// battens that lie or have no framing behind half of their length. Not empty: the rest means nothing.
  std::vector<std::string> missing;
};

/// Parts of kind cladding; whether the panel bears any.
bool bears_cladding(const Panel& panel);

CladdingLines cladding_lines(const Panel& panel);

/// Fixings that lines of `length_m` have at least at `spacing_m` > 0: one a spacing, whatever their ends.
double fewest_fixings(double length_m, double spacing_m);

}  // namespace panel_dossier::structural
