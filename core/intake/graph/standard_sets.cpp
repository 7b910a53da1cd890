#include "core/intake/graph/standard_sets.h"

#include <algorithm>
#include <fstream>
#include <stdexcept>

#include "core/api/support/words.h"

namespace panel_dossier {

StandardSets::StandardSets(const std::filesystem::path& schema_dir) {
  const std::filesystem::path file = schema_dir / "ifc/property_sets.csv";
  std::ifstream stream(file);
  std::string line;
  if (!std::getline(stream, line) || line != "set,on,property,type,unit") {
    throw std::runtime_error("cannot read '" + file.string() + "'; give the folder of the schemas with --schemas");
  }
  while (std::getline(stream, line)) {
    const auto row = csv_fields(line);
    if (!row || row->size() != 5) {
      throw std::runtime_error("'" + file.string() + "' has the row '" + line + "', not of 5 fields");
    }
    StandardProperty property{row->at(0), row->at(2), split(row->at(1), ' '), row->at(3), row->at(4)};
    properties_.emplace(std::pair(property.set, property.property), std::move(property));
  }
}

const StandardProperty* StandardSets::find(const std::string& set, const std::string& property) const {
  const auto found = properties_.find({set, property});
  return found == properties_.end() ? nullptr : &found->second;
}

bool is_for(const StandardProperty& property, std::string_view entity) {
  return std::any_of(property.on.begin(), property.on.end(), [&](const std::string& on) {
    // What is a panel is an element; IfcWallStandardCase and IfcWallElementedCase are walls.
    return on == "IfcElement" || on == "IfcProduct" || entity.starts_with(on);
  });
}

}  // namespace panel_dossier
