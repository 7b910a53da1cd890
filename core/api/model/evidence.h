// A document the project names as evidence.
#pragma once

#include <string>

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
};

}  // namespace panel_dossier
