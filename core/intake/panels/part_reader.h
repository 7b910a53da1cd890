// The parts of a panel.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/model/panel.h"
#include "core/intake/graph/property_reader.h"
#include "core/intake/panels/material_reader.h"
#include "core/intake/panels/placement.h"
#include "core/intake/panels/shape_reader.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// The readers that a panel and its parts need. All outlive the run.
struct PanelReaders {
  const ReadContext& context;
  UnitTable& units;
  PlacementReader& placements;
  ShapeReader& shapes;
  PropertyReader& properties;
  MaterialReader& materials;
};

/// A part with its shape in the world's frame.
struct PlacedPart {
  Part part;
  Shape shape;
  Element entity;
};

/// Everything of a part but its geometry in the panel's frame. None when its placement is faulty, which is reported.
std::optional<PlacedPart> read_part(PanelReaders& readers, const Element& entity);

/// Sets the solid, box, volume and length of the part once its shape stands in the panel's frame. `voids` are the
/// boxes of the openings in the part itself.
void set_geometry(PanelReaders& readers, PlacedPart& placed, const std::vector<Box3>& voids);

/// Warns where the quantity NetVolume of a part or panel is not the volume of its shape, which is used.
void compare_with_net_volume(const ReadContext& context, const Element& entity, const Properties& properties,
                             double volume_m3);

/// PredefinedType of an object or its type, else ObjectType, as the export gives it.
std::string predefined_or_object_type(const ReadContext& context, const Element& entity);

/// Name of the type object, else ObjectType.
std::string type_name(const ReadContext& context, const Element& entity);

}  // namespace panel_dossier
