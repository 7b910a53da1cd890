// Profiles of the export -> areas in metres.
#pragma once

#include <optional>
#include <vector>

#include "core/api/support/geometry.h"
#include "core/intake/graph/unit_table.h"
#include "core/intake/panels/placement.h"
#include "core/intake/panels/shapes/curve_reader.h"
#include "core/intake/panels/shapes/unread_shapes.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// An area in the plane of a profile: an outline less the holes in it.
struct ProfileArea {
  Polygon outline;
  std::vector<Polygon> holes;
};

/// Belongs to one run on one thread.
class ProfileReader {
 public:
  ProfileReader(const ReadContext& context, const PlacementReader& placements, UnitTable& units, UnreadShapes& unread)
      : context_(context),
        placements_(placements),
        units_(units),
        unread_(unread),
        curves_(context, placements, units, unread) {}

  /// A form that is not read is counted and gives none; a faulty profile is reported and gives none.
  std::optional<ProfileArea> area(const Element& profile);
  /// A closed curve that bounds something else than a profile; faults are reported at `owner`.
  std::optional<Polygon> outline(const Element& curve, const Element& owner);

 private:
  const ReadContext& context_;
  const PlacementReader& placements_;
  UnitTable& units_;
  UnreadShapes& unread_;
  CurveReader curves_;

  std::optional<double> size(const Element& profile, std::string_view attribute) const;
  std::optional<ProfileArea> rectangle_profile(const Element& profile) const;
  std::optional<ProfileArea> hollow_rectangle(const Element& profile) const;
  std::optional<ProfileArea> i_shape(const Element& profile) const;
  std::optional<ProfileArea> circle_profile(const Element& profile, bool is_hollow) const;
  std::optional<ProfileArea> arbitrary_profile(const Element& profile, bool has_voids);
  std::optional<ProfileArea> placed(const Element& profile, std::optional<ProfileArea> area) const;
};

}  // namespace panel_dossier
