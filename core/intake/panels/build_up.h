// The layers of a panel, brought into the order from inside to outside.
#pragma once

#include <optional>

#include "core/api/model/panel.h"
#include "core/intake/export_reader.h"
#include "core/intake/panels/material_reader.h"
#include "core/intake/panels/panel_finder.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

struct BuildUp {
  std::optional<LayerSet> set;        ///< as the export orders it
  std::optional<LayerOrder> order;    ///< none when nobody says which face is outside
  bool outside_is_positive_y = true;  ///< in the upright frame of the placement; meaningful with `order`
  double total_m = 0.0;

  bool lies_along_x() const { return set && set->usage && set->usage->direction == LayerDirection::along_x; }
};

/// From the panel or, where it has none, from a wall among its subassemblies. The order is
/// Panel_Construction.FirstLayerFace, else the default; IfcMaterialLayerSetUsage.DirectionSense says on which side the
/// last layer lies.
BuildUp read_build_up(const ReadContext& context, MaterialReader& materials, const PanelEntities& entities,
                      const Properties& properties, std::optional<LayerOrder> default_order);

/// Sets `layers` and `outside_known` of the panel, whose size is set: layers follow one another from the inner face.
/// Warns when they do not add up to the panel's thickness.
void set_layers(const ReadContext& context, const Element& entity, BuildUp build_up, Panel& panel);

}  // namespace panel_dossier
