// Property sets and quantities of objects, their types and materials.
#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "core/api/model/properties.h"
#include "core/intake/graph/expected_measures.h"
#include "core/intake/graph/unit_table.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// Reads each property set once and hands out copies. Belongs to one run on one thread.
class PropertyReader {
 public:
  /// A known property of another measure type than `expected` says is reported and not read.
  PropertyReader(const ReadContext& context, UnitTable& units, const ExpectedMeasures& expected)
      : context_(context), units_(units), expected_(expected) {}

  /// Of an object: its own sets first, then those of its type.
  Properties of_object(const Element& object);
  /// Of a material, layer or other material definition: IfcMaterialProperties, and their IFC2x3 forms under the names
  /// the later generations gave them.
  Properties of_material(const Element& material);

 private:
  struct Named {
    std::string set;
    std::string name;
    Property property;
  };

  const ReadContext& context_;
  UnitTable& units_;
  const ExpectedMeasures& expected_;
  std::unordered_map<const void*, std::vector<Named>> sets_;

  void add_set(const Element& set, Properties& properties);
  std::vector<Named> read_set(const Element& set);
  std::vector<Named> read_attributes(const Element& set);
  void read_property(const std::string& set, const Element& entity, std::vector<Named>& found);
  void read_quantity(const std::string& set, const Element& entity, std::vector<Named>& found);
  void append(const std::string& set, const std::string& name, const TypedText& value, const Element& unit,
              const Element& entity, std::vector<Named>& found);
};

}  // namespace panel_dossier
