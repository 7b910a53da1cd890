// The documents that materials refer to by id.
#pragma once

#include <set>
#include <string>
#include <utility>
#include <vector>

#include "core/api/model/project.h"

namespace panel_dossier {

/// Ids named by the material's properties `DocumentId` and `ChainOfCustodyDocument`, of whatever set; in alphabetical
/// order.
std::set<std::string> document_ids(const Material& material);

/// Names of the materials of the panel's layers and parts under the ids of the documents they refer to; names in
/// alphabetical order.
std::vector<std::pair<std::string, std::vector<std::string>>> material_documents(const Panel& panel,
                                                                                 const Project& project);

}  // namespace panel_dossier
