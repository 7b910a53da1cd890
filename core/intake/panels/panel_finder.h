// Which entities are panels, and what each decomposes into.
#pragma once

#include <unordered_set>
#include <vector>

#include "core/intake/declarations.h"
#include "core/intake/graph/property_reader.h"
#include "core/intake/panels/material_reader.h"
#include "core/intake/panels/panel_choice.h"
#include "core/intake/panels/panel_rules.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// A panel's entity, its leaf parts in the export's order, and the assemblies between.
struct PanelEntities {
  Element panel;
  std::vector<Element> parts;
  std::vector<Element> subassemblies;
};

/// What was chosen of the elements that could be panels.
struct PanelChoice {
  std::vector<PanelEntities> panels;  ///< in file order
  std::vector<ChoiceCount> counts;    ///< in the order in which each reason was first met
};

/// Entities of panels, of all within them and of all around them: none of these stands beside a panel.
std::unordered_set<const void*> entities_of(const ReadContext& context, const std::vector<PanelEntities>& panels);

/// What the rules of the settings ask of an element.
struct RuleReaders {
  const ReadContext& context;
  const SpatialReader& spatial;
  const Project& project;  ///< its storeys are read
  PropertyReader& properties;
  const MaterialReader& materials;
};

/// Reports objects that are, by decomposition or containment, inside themselves. Panels can be looked for only when
/// there are none.
bool check_decomposition(const ReadContext& context);

/// All panels, by the first of `rules` that an element fits. What no rule fits is no panel where one of them includes,
/// and chosen as without rules where all of them exclude. Without rules those are panels that decompose into parts or
/// carry a property set `Panel_…`, results that a build wrote back apart; where there is none of these, walls with
/// material layers. A wall or assembly made of nothing but walls and assemblies is an elevation or a frame around
/// panels, not a panel; walls and assemblies within a panel are subassemblies of it. Warns of rules that nothing fits,
/// and of walls with layers that no rule leaves out.
PanelChoice find_panels(const RuleReaders& readers, const std::vector<PanelRule>& rules);

}  // namespace panel_dossier
