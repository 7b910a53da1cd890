// What a panel sheet refers to: numbered inputs with where each came from, and the documents of its materials.
#pragma once

#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"

namespace panel_dossier {

/// Numbers distinct inputs from 1 in the order of first use. Two inputs are one when name, symbol, value, unit and
/// origin agree.
class InputList {
 public:
  /// The number, and whether this is its first use.
  std::pair<std::size_t, bool> number(const Input& input);

  /// Every origin with the numbers of its inputs, in the order of first use.
  const std::vector<std::pair<std::string, std::vector<std::size_t>>>& sources() const { return sources_; }

 private:
  std::map<std::string, std::size_t> numbers_;
  std::map<std::string, std::size_t> source_index_;
  std::vector<std::pair<std::string, std::vector<std::size_t>>> sources_;
};

/// `[1–3, 7]` for 1, 2, 3 and 7, in any order.
std::string number_ranges(std::vector<std::size_t> numbers);

/// As `describe`, without the entity where a property of a set is named: the set and the line find it.
std::string short_origin(const Origin& origin);

/// Ids that the material's properties name: those whose name ends in `Document` or `DocumentId`, of whatever set, and
/// every text that is the id of a document of the export, such as that of a delivery note; in alphabetical order.
std::set<std::string> document_ids(const Material& material, const Project& project);

/// Names of the materials of the panel's layers and parts under the ids of the documents they refer to; names in
/// alphabetical order.
std::vector<std::pair<std::string, std::vector<std::string>>> material_documents(const Panel& panel,
                                                                                 const Project& project);

}  // namespace panel_dossier
