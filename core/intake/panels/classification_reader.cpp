#include "core/intake/panels/classification_reader.h"

#include <algorithm>
#include <utility>

#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

namespace {

void add_own(const ReadContext& context, const Element& entity, std::vector<ClassificationReference>& found) {
  for (const Element& linked : context.graph.linked(Link::classifications, entity)) {
    // Documents hang on resources by the same relationship.
    if (ifc_type(linked) != "IfcClassificationReference") continue;
    ClassificationReference reference;
    reference.identification = context.graph.text(linked, "Identification");
    if (reference.identification.empty()) reference.identification = context.graph.text(linked, "ItemReference");
    reference.name = context.graph.text(linked, "Name");
    if (reference.shown().empty()) continue;
    const bool is_known = std::any_of(found.begin(), found.end(), [&](const ClassificationReference& other) {
      return other.identification == reference.identification && other.name == reference.name;
    });
    if (!is_known) found.push_back(std::move(reference));
  }
}

}  // namespace

std::vector<ClassificationReference> classifications_of(const ReadContext& context, const Element& entity) {
  std::vector<ClassificationReference> found;
  add_own(context, entity, found);
  for (const Element& type : context.graph.linked(Link::type, entity)) add_own(context, type, found);
  return found;
}

}  // namespace panel_dossier
