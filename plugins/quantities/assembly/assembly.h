// The order in which the parts of a panel are put together.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "plugins/quantities/cutting/part_names.h"

namespace panel_dossier::quantities {

/// Parts of one kind and layer, put in together.
struct Stage {
  PartKind kind = PartKind::other;  ///< of framing: `stud`
  std::string name;                 ///< `frame`, `sheet`, `insulation`, …
  MaterialKey material;             ///< of the first part; a frame may have several
  std::string face;                 ///< `inner` or `outer`, the side of the frame; empty in the frame's depth
  double y_min_m = 0.0;
  double y_max_m = 0.0;
  std::vector<std::size_t> parts;      ///< indices into Panel::parts, in the export's order
  std::vector<std::size_t> fasteners;  ///< fasteners that lie in the stage's depth
};

/// First the frame; then the sheet next to it on its inside, with membranes between the two, so that the cassette is a
/// tray for its insulation; the insulation; everything outside the frame from the frame outwards; the rest inside it
/// from the frame inwards (common practice). Fasteners go with the stage they share most depth with, insulation and
/// membranes excepted. Parts without a place come last under their own kinds. Fasteners without a place are left out.
std::vector<Stage> assembly_stages(const Panel& panel, const Project& project);

}  // namespace panel_dossier::quantities
