// An export as a file of requirements sees it: of each entity its class, types, properties, classifications, materials
// and wholes, by the rules of IDS 1.0.
#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "core/intake/graph/graph.h"
#include "core/intake/graph/unit_table.h"
#include "core/intake/ids/ids_schema.h"
#include "core/intake/ids/ids_value.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// One property or quantity; several values where it is a list, a table, an enumeration or bounded. None of a complex
/// or a reference value, which no requirement can ask for.
struct IdsProperty {
  std::string set;
  std::string name;
  std::vector<FoundValue> values;
};

/// One reference to a classification.
struct IdsClassification {
  std::string system;                        ///< name of the classification
  std::vector<std::string> identifications;  ///< of the reference and of all above it
};

/// A value of an attribute.
struct IdsAttributeValue {
  std::string name;
  bool is_written = false;  ///< be it as an empty text, which states nothing
  bool is_present = false;
  bool is_comparable = false;  ///< false for an object or a list, which can be asked for presence only
  FoundValue value;
};

/// Belongs to one check on one thread; everything it is given must outlive it.
class IdsModel {
 public:
  IdsModel(const ReadContext& context, UnitTable& units, const IdsSchema& schema)
      : context_(context), units_(units), schema_(schema) {}

  /// `IFCWALL`.
  static std::string entity_class(const Element& entity) { return in_capitals(ifc_type(entity)); }
  /// What counts as its predefined type: that of its type object, else its own; beside USERDEFINED the user's word.
  std::vector<std::string> predefined_types(const Element& entity) const;
  /// Every explicit attribute of the class; of a class that the schema does not know, those that are written.
  std::vector<IdsAttributeValue> attributes(const Element& entity);
  /// Its own, then those of its type that it has not itself.
  const std::vector<IdsProperty>& properties(const Element& entity);
  /// Its own, then those of its type in other systems.
  std::vector<IdsClassification> classifications(const Element& entity) const;
  bool has_material(const Element& entity) const;
  /// Names and categories of the materials, layers, profiles and constituents, its own or else those of its type.
  std::vector<std::string> materials(const Element& entity) const;
  /// What it is part of, directly and indirectly, over one relation as IDS names it or, with an empty name, over all.
  std::vector<Element> wholes(const Element& entity, std::string_view relation) const;

 private:
  const ReadContext& context_;
  UnitTable& units_;
  const IdsSchema& schema_;
  std::unordered_map<const void*, std::vector<IdsProperty>> sets_;
  const void* last_ = nullptr;  ///< entity whose properties were asked for last
  std::vector<IdsProperty> properties_;

  FoundValue found_value(const TypedText& value, const Element& unit);
  IdsAttributeValue attribute(const Element& entity, const IdsAttribute& form);
  void add_set(const Element& set);
  std::vector<IdsProperty> read_set(const Element& set);
  std::vector<IdsProperty> read_predefined_set(const Element& set, const std::string& name);
  IdsProperty read_property(const Element& property, const std::string& set);
  void add_values(const Element& property, std::string_view attribute, const Element& unit,
                  std::vector<FoundValue>& values);
  IdsClassification classification(const Element& reference) const;
  Element material_of(const Element& entity) const;
  void add_material(const Element& definition, int depth, std::vector<std::string>& names) const;
};

}  // namespace panel_dossier
