// The standard's own property sets of building elements, as far as a result can be written into one of their
// properties.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace panel_dossier {

struct StandardProperty {
  std::string set;
  std::string property;
  std::vector<std::string> on;  ///< entities, subtypes among them
  std::string type;             ///< IFC measure type, or entity of a quantity
  std::string unit;             ///< in SI; of a mass of something else with that something: `kg CO2e`; empty for none
};

/// The table schemas/ifc/property_sets.csv. Immutable.
class StandardSets {
 public:
  /// Throws std::runtime_error, naming the file, when it cannot be read or a row is not what README.md there says.
  explicit StandardSets(const std::filesystem::path& schema_dir);

  /// Null when the standard has no such property, or none that a single value can fill.
  const StandardProperty* find(const std::string& set, const std::string& property) const;

 private:
  std::map<std::pair<std::string, std::string>, StandardProperty> properties_;
};

/// True when objects of the entity may carry the property.
bool is_for(const StandardProperty& property, std::string_view entity);

}  // namespace panel_dossier
