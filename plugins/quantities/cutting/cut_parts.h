// The pieces that the workshop cuts for a panel, by blank size, and their net measures.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "core/api/model/panel.h"

namespace panel_dossier::quantities {

/// Whole micrometres, so that equal sizes compare equal whatever rounding the export's units brought.
using Micrometres = std::int64_t;

/// The quotient of whole numbers, rounded up. Preconditions: `dividend` is not negative, `divisor` positive.
constexpr Micrometres quotient_up(Micrometres dividend, Micrometres divisor) {
  return (dividend + divisor - 1) / divisor;
}

constexpr double millimetres(Micrometres value) {
  return static_cast<double>(value) / 1.0e3;
}
constexpr double metres(Micrometres value) {
  return static_cast<double>(value) / 1.0e6;
}
/// `value_m` in m; magnitude below 9·10⁶ m, which the intake ensures.
Micrometres micrometres(double value_m);

/// Exports round sizes to the millimetre, so two statements of one size may differ by as much.
inline constexpr Micrometres kSizeAgreement = 1000;

/// Whether nothing is cut from the whole: volumes carry the rounding of the export's coordinates and of cubic
/// millimetres.
bool fills(double volume_m3, double whole_m3);

/// The smallest straight piece of stock that holds the part. A member: `thickness` <= `width`, `length` along its axis.
/// A sheet, slab or membrane: `thickness` through the panel, `width` <= `length`.
struct CutPart {
  std::size_t part = 0;  ///< index into Panel::parts
  Micrometres thickness = 0;
  Micrometres width = 0;
  Micrometres length = 0;
  /// False when the part does not fill its blank: mitred, notched, or cut around an opening.
  bool rectangular = true;
};

struct CutParts {
  std::vector<CutPart> parts;        ///< in the order of Panel::parts
  std::vector<std::string> missing;  ///< parts whose size is not known, and what would mend it
};

/// Framing members, sheets, insulation, membranes and cladding. Fasteners and parts of kind `other` are not cut.
CutParts cut_parts(const Panel& panel);

/// m³: as the part is, else of its blank.
double net_volume_m3(const CutPart& cut, const Part& part);

/// Length in m of a framing member; area of the face in m², openings left out, of any other part.
double net_measure(const CutPart& cut, const Part& part);

}  // namespace panel_dossier::quantities
