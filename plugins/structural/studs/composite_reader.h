// How much of the sheets on its faces works with each stud of a panel, and what annex B of EN 1995-1-1 needs of them.
#pragma once

#include <optional>
#include <string>

#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/basis/framing.h"
#include "plugins/structural/racking/sheathing_face.h"
#include "plugins/structural/studs/composite_stud.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// Widths along the wall in m.
struct FlangeGeometry {
  double on_stud_m = 0.0;      ///< of the stud's width, covered by sheets
  double left_m = 0.0;         ///< sheet beside the stud, to its edge, an opening or half of the clear distance
  double right_m = 0.0;        ///< likewise
  double clear_m = 0.0;        ///< larger clear distance to a neighbour that the sheet reaches, 0 without one
  std::size_t edge_rows = 0;   ///< vertical edges of sheets on the stud, each with a row of fasteners
  std::string not_continuous;  ///< why no sheet works with the stud; empty when one does
};

/// Sheets count that reach over the whole member in one piece and, unless particleboard, stand with their longer side
/// along it: the main axis of the tables is taken to be that side (common practice).
FlangeGeometry flange_geometry(const Panel& panel, const Framing& framing, std::size_t member,
                               const SheathingFace& face);

/// bef of 9.1.2: the width on the stud and on each side half of the smaller limit, as far as there is sheet.
double effective_width_m(const FlangeGeometry& geometry, const FlangeLimits& limits);

/// Setting structural.composite_sheathing is there and not `neglected`.
bool composite_asked(const Settings& settings);

/// Setting structural.composite_sheathing: `neglected`, also without it, or `annex B`. Preconditions: `design.missing`
/// is empty and `design.systems` has one entry a member. Missing data are named in the result.
CompositeDesign read_composite(const Panel& panel, const Project& project, const Settings& settings,
                               const Tables& tables, const StudDesign& design);

}  // namespace panel_dossier::structural
