// Which entities are panels, and what each decomposes into.
#pragma once

#include <vector>

#include "core/intake/read_context.h"

namespace panel_dossier {

/// A panel's entity, its leaf parts in the export's order, and the assemblies between.
struct PanelEntities {
  Element panel;
  std::vector<Element> parts;
  std::vector<Element> subassemblies;
};

/// Reports objects that are, by decomposition or containment, inside themselves. Panels can be looked for only when
/// there are none.
bool check_decomposition(const ReadContext& context);

/// All panels in file order. A wall or assembly made of nothing but walls and assemblies is an elevation or a frame
/// around panels, not a panel; walls and assemblies within a panel are subassemblies of it.
std::vector<PanelEntities> find_panels(const ReadContext& context);

}  // namespace panel_dossier
