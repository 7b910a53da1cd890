// IfcExtrudedAreaSolid -> prism in metres.
#pragma once

#include <optional>

#include "core/intake/panels/placement.h"
#include "core/intake/panels/shapes/prism_form.h"
#include "core/intake/panels/shapes/profile_reader.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// Belongs to one run on one thread.
class ExtrusionReader {
 public:
  ExtrusionReader(const ReadContext& context, const PlacementReader& placements, UnitTable& units, UnreadShapes& unread)
      : context_(context), placements_(placements), units_(units), profiles_(context, placements, units, unread) {}

  /// The prism, which may be oblique, in the coordinates of the item. A profile that is not read is counted, faults are
  /// reported; none then.
  std::optional<PrismForm> read(const Element& item);

  ProfileReader& profiles() { return profiles_; }

 private:
  const ReadContext& context_;
  const PlacementReader& placements_;
  UnitTable& units_;
  ProfileReader profiles_;
};

}  // namespace panel_dossier
