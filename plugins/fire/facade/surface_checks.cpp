#include "plugins/fire/facade/surface_checks.h"

#include "core/api/finding/finding_builder.h"
#include "plugins/fire/facade/layer_classes.h"

namespace panel_dossier::fire {

Finding reaction_to_fire(const Panel& panel, const Project& project) {
  FindingBuilder builder("fire.reaction_to_fire", "Reaction to fire of the surfaces", panel.global_id,
                         "EN 13501-1:2018 11");
  builder.basis(Basis::declared);
  const auto layers = layer_classes(panel, project);
  if (!panel.outside_known) return builder.not_assessed(kOutsideUnknown);
  if (layers.empty()) return builder.not_assessed("the panel has no material layers (IfcMaterialLayerSet)");
  builder.table(class_table(layers));
  const auto inner = surface(builder, "inner surface", layers.front());
  const auto outer = surface(builder, "outer surface", layers.back());
  if (builder.incomplete()) return builder.not_assessed();
  builder.step_text("inner surface", inner->text()).step_text("outer surface", outer->text());
  builder.note(
      "Classes are those stated for each material in the export; the class of a product in its end use depends "
      "on its fixing, backing and joints and is shown by its declaration of performance or classification report.");
  return builder.inform_text("inner " + inner->text() + "; outer " + outer->text());
}

}  // namespace panel_dossier::fire
