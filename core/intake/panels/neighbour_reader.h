// The rest of the building: what stands beside the panels.
#pragma once

#include <optional>
#include <string_view>
#include <unordered_set>
#include <vector>

#include "core/api/model/project.h"
#include "core/intake/declarations.h"
#include "core/intake/panels/material_reader.h"
#include "core/intake/panels/placement.h"
#include "core/intake/panels/shape_reader.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// What the entity is beside panels; none for one that is no neighbour. `token` is its PredefinedType.
std::optional<NeighbourKind> neighbour_kind(std::string_view entity, std::string_view token);

/// Belongs to one run on one thread. A fault in a neighbour refuses no export: it is reported as a warning, and the
/// neighbour has no bounds.
class NeighbourReader {
 public:
  NeighbourReader(const ReadContext& context, UnitTable& units, const SpatialReader& spatial,
                  const MaterialReader& materials)
      : context_(context),
        spatial_(spatial),
        materials_(materials),
        quiet_(context.report.for_the_same_file()),
        quiet_context_{context.graph, quiet_, context.budget},
        length_factor_(units.length_factor()),
        placements_(quiet_context_, units.length_factor()),
        shapes_(quiet_context_, placements_, units, OpenSurfaces::bound) {}
  NeighbourReader(const NeighbourReader&) = delete;
  NeighbourReader& operator=(const NeighbourReader&) = delete;

  /// All of the export but the entities of panels, in file order.
  std::vector<Neighbour> read(const std::unordered_set<const void*>& of_panels);

  /// Warns of what of their shapes was not read or is faulty, unless the export is refused already.
  void report();

 private:
  const ReadContext& context_;
  const SpatialReader& spatial_;
  const MaterialReader& materials_;
  Reporter quiet_;
  ReadContext quiet_context_;
  double length_factor_;
  PlacementReader placements_;
  ShapeReader shapes_;

  std::vector<Element> candidates(const std::unordered_set<const void*>& of_panels) const;
  std::optional<Neighbour> read_one(const Element& element);
  Shape shape_in_world(const Element& element);
  std::optional<Sourced<double>> layers_total_m(const Element& element);
};

}  // namespace panel_dossier
