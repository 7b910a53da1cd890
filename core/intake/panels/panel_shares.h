// All panels of an export, read on as many threads as there are processors.
#pragma once

#include <optional>
#include <vector>

#include "core/api/model/panel.h"
#include "core/intake/declarations.h"
#include "core/intake/export_reader.h"
#include "core/intake/graph/property_reader.h"
#include "core/intake/graph/unit_table.h"
#include "core/intake/panels/material_reader.h"
#include "core/intake/panels/panel_finder.h"
#include "core/intake/panels/shapes/unread_shapes.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// What the export declares for all panels, read before them.
struct PanelSources {
  const ReadContext& context;
  const UnitTable& units;
  const ExpectedMeasures& expected;
  const SpatialReader& spatial;
  const EvidenceReader& evidence;
  MaterialReader& materials;  ///< is told what parts say of their materials
  std::optional<LayerOrder> default_layer_order;
};

struct PanelShares {
  std::vector<Panel> panels;  ///< in the order of their entities, less those with faults that leave nothing to read
  UnreadShapes unread;
};

/// Panels are read in shares of one size, each by readers of its own, and put together in their order: so what is found
/// and reported does not hang on the number of threads. Once the budget is spent nothing that was found counts, and it
/// is not reported. No thread is left when this returns, for the program forks afterwards.
PanelShares read_in_shares(const PanelSources& sources, const std::vector<PanelEntities>& entities);

}  // namespace panel_dossier
