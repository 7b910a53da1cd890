// The materials of the sample project.
#pragma once

#include <string_view>
#include <vector>

#include "sample_project/generator/properties.h"

namespace sample_export {

struct Material {
  std::string_view key;  ///< short name used in the tables of panel types
  std::string_view name;
  std::string_view category;  ///< IfcMaterial.Category
  std::vector<PropertySet> property_sets;
};

/// All materials, in the order in which they are written.
const std::vector<Material>& materials();

/// Throws std::out_of_range when there is no such key.
const Material& material(std::string_view key);

}  // namespace sample_export
