// From project and results to the rows of a COBie delivery.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <vector>

#include "core/dossier/handover/cobie_book.h"
#include "core/dossier/handover/cobie_contacts.h"
#include "core/dossier/handover/handover.h"

namespace panel_dossier {

/// The rows, and the names under which the things of the project stand in them.
struct CobieDelivery {
  CobieBook book;
  CobieContacts contacts;
  std::string facility;
  std::vector<std::string> spaces;           ///< of each storey; one more for panels without a storey, if there are any
  std::vector<std::string> components;       ///< of each panel
  std::map<std::string, std::string> types;  ///< of each type of panel, under its name in the project
  std::vector<std::string> notes = {};       ///< for the sheet Instruction
};

/// Everything that the project has for COBie; what is not known is `n/a`.
CobieDelivery cobie_delivery(const HandoverContent& content);

/// Facility, floors, and the spaces that the components stand in.
void add_places(CobieDelivery& delivery, const HandoverContent& content);
/// Types and components: panels, and the windows and doors in them; systems, assemblies and coordinates.
void add_assets(CobieDelivery& delivery, const HandoverContent& content);
/// What is stated, found, documented and open of them: attributes, documents, impacts, jobs and issues.
void add_statements(CobieDelivery& delivery, const HandoverContent& content);

}  // namespace panel_dossier
