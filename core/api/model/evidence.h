// A document the project names as evidence.
#pragma once

#include <optional>
#include <string>

#include "core/api/model/declaration.h"
#include "core/api/model/origin.h"

namespace panel_dossier {

enum class EvidenceStatus {
  present,  ///< the file lies inside the project folder and can be read
  missing,  ///< no file at that path
  refused,  ///< the path is absolute, a URL, or leads outside the project folder; not followed
};

struct Evidence {
  std::string id;  ///< Identification (ItemReference in IFC2x3) of the IfcDocumentReference
  std::string name;
  std::string location;  ///< relative path as the export gives it
  EvidenceStatus status = EvidenceStatus::missing;
  Origin origin;
  /// Content of a file that a material names as its environmental declaration and that has a form that is read.
  std::optional<Declaration> declaration = std::nullopt;
  std::string declaration_fault = {};  ///< why such a file could not be read, with its line; else empty
};

}  // namespace panel_dossier
