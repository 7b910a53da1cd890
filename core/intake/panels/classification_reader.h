// How the export classifies an object, its type or a material.
#pragma once

#include <string>
#include <vector>

#include "core/intake/read_context.h"

namespace panel_dossier {

/// An IfcClassificationReference.
struct ClassificationReference {
  std::string identification;  ///< ItemReference in IFC2x3; may be empty
  std::string name;            ///< may be empty

  /// The identification, else the name.
  const std::string& shown() const { return identification.empty() ? name : identification; }
};

/// Those of an object, then those of its type; or those of a material. Each once, in the export's order.
std::vector<ClassificationReference> classifications_of(const ReadContext& context, const Element& entity);

}  // namespace panel_dossier
