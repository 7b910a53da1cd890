// What a requirement may ask of an entity: its explicit attributes and their types, by the standard's schema.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

struct IdsAttribute {
  std::string name;
  std::string type;  ///< as in EXPRESS: `IfcLabel`, `SET [1:?] OF IfcObject`

  bool is_list() const { return type.find(" OF ") != std::string::npos; }
};

/// One generation of the standard. Immutable.
class IdsSchema {
 public:
  /// Reads `ifc/attributes.csv`, `ifc/supertypes.csv`, `ifc/types.csv` and `ifc/enumerations.csv` of the folder of
  /// schemas. Throws std::runtime_error, naming the file, when one cannot be read.
  IdsSchema(const std::filesystem::path& schema_dir, Generation generation);

  /// By name in capitals.
  bool has_entity(const std::string& name) const { return entities_.contains(name); }
  /// The explicit attributes, inherited ones first; null for an entity whose attributes are not known.
  const std::vector<IdsAttribute>* attributes(const std::string& entity) const;
  /// What a defined type stands for: `STRING`, `REAL`, …; empty for entities, selects and enumerations.
  std::string underlying(const std::string& type) const;
  /// The same by the name in capitals; `ENUMERATION` for an enumeration.
  std::string underlying_in_capitals(const std::string& type) const;

 private:
  std::unordered_set<std::string> entities_;
  std::unordered_map<std::string, std::vector<IdsAttribute>> attributes_;
  std::unordered_map<std::string, std::string> underlying_;
  std::unordered_map<std::string, std::string> by_capitals_;  ///< defined types and enumerations
};

/// `IfcWall` -> `IFCWALL`.
std::string in_capitals(std::string_view name);

}  // namespace panel_dossier
