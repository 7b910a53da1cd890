#include "core/intake/ids/ids_model.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <unordered_set>

#include "core/api/support/words.h"
#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

namespace {

using namespace std::string_view_literals;

// References and wholes above one another: an honest model has fewer than ten levels.
constexpr int kMostIdsLevels = 64;

constexpr std::array kQuantityValues{
    std::pair{"LengthValue"sv, "IfcLengthMeasure"sv}, std::pair{"AreaValue"sv, "IfcAreaMeasure"sv},
    std::pair{"VolumeValue"sv, "IfcVolumeMeasure"sv}, std::pair{"WeightValue"sv, "IfcMassMeasure"sv},
    std::pair{"CountValue"sv, "IfcCountMeasure"sv},   std::pair{"TimeValue"sv, "IfcTimeMeasure"sv},
};

struct PropertyValueForm {
  std::string_view entity;
  std::string_view attribute;
  std::string_view unit;
};

constexpr std::array kValueForms{
    PropertyValueForm{"IfcPropertySingleValue", "NominalValue", "Unit"},
    PropertyValueForm{"IfcPropertyEnumeratedValue", "EnumerationValues", ""},
    PropertyValueForm{"IfcPropertyListValue", "ListValues", "Unit"},
    PropertyValueForm{"IfcPropertyBoundedValue", "LowerBoundValue", "Unit"},
    PropertyValueForm{"IfcPropertyBoundedValue", "UpperBoundValue", "Unit"},
    PropertyValueForm{"IfcPropertyBoundedValue", "SetPointValue", "Unit"},
    PropertyValueForm{"IfcPropertyTableValue", "DefiningValues", "DefiningUnit"},
    PropertyValueForm{"IfcPropertyTableValue", "DefinedValues", "DefinedUnit"},
};

/// Lists below a definition of materials, and single members that lead on.
constexpr std::array kMaterialMembers{"ForLayerSet"sv,      "ForProfileSet"sv,        "MaterialLayers"sv,
                                      "MaterialProfiles"sv, "MaterialConstituents"sv, "Materials"sv,
                                      "Material"sv};

struct WholeForm {
  std::string_view relation;
  Link link;
};

constexpr std::array kWholes{
    WholeForm{"IFCRELAGGREGATES", Link::aggregate},
    WholeForm{"IFCRELNESTS", Link::nest},
    WholeForm{"IFCRELASSIGNSTOGROUP", Link::group},
    WholeForm{"IFCRELCONTAINEDINSPATIALSTRUCTURE", Link::container},
    WholeForm{"IFCRELVOIDSELEMENT IFCRELFILLSELEMENT", Link::filled},
    WholeForm{"IFCRELVOIDSELEMENT IFCRELFILLSELEMENT", Link::voided},
};

bool holds(const std::vector<IdsProperty>& properties, const IdsProperty& one) {
  return std::any_of(properties.begin(), properties.end(),
                     [&](const IdsProperty& p) { return p.set == one.set && p.name == one.name; });
}

bool is_object_type(const std::string& type, const std::string& underlying) {
  return underlying.empty() && type.starts_with("Ifc") && !type.ends_with("Enum");
}

}  // namespace

FoundValue IdsModel::found_value(const TypedText& value, const Element& unit) {
  using Kind = FoundValue::Kind;
  FoundValue found;
  found.type = in_capitals(value.type);
  found.text = value.text;
  const Measure* measure = find_measure(value.type);
  std::string underlying = schema_.underlying(std::string(value.type));
  if (underlying.empty()) underlying = value.type;
  if (underlying == "BOOLEAN" || underlying == "LOGICAL") {
    const auto logical = parse_logical(value.text);
    found.kind = Kind::logical;
    // UNKNOWN states nothing.
    if (!logical) found.text.clear();
    found.logical = logical.value_or(false);
    return found;
  }
  const bool is_integer = underlying == "INTEGER";
  if (!is_integer && underlying != "REAL" && underlying != "NUMBER") return found;
  const auto number = parse_number(value.text);
  if (!number) return found;
  found.kind = is_integer ? Kind::integer : Kind::real;
  found.number = measure == nullptr ? *number : units_.to_si(*number, *measure, unit).value_or(*number);
  return found;
}

std::vector<std::string> IdsModel::predefined_types(const Element& entity) const {
  const auto stated = [&](const Element& at) {
    const std::string type = in_capitals(context_.graph.text(at, "PredefinedType"));
    return type == "NOTDEFINED" ? std::string() : type;
  };
  const auto with_word = [&](const Element& at, std::string type) {
    std::vector<std::string> types;
    for (const char* attribute : {"ObjectType", "ElementType", "ProcessType"}) {
      std::string word = type == "USERDEFINED" ? context_.graph.text(at, attribute) : std::string();
      if (!word.empty()) types.push_back(std::move(word));
    }
    if (!type.empty()) types.push_back(std::move(type));
    return types;
  };
  for (const Element& type : context_.graph.linked(Link::type, entity)) {
    if (std::string of_type = stated(type); !of_type.empty()) return with_word(type, std::move(of_type));
  }
  return with_word(entity, in_capitals(context_.graph.text(entity, "PredefinedType")));
}

IdsAttributeValue IdsModel::attribute(const Element& entity, const IdsAttribute& form) {
  IdsAttributeValue found;
  found.name = form.name;
  if (form.name == "GlobalId") {
    found.value.text = own_global_id(entity);
    found.is_present = !found.value.text.empty();
    found.is_comparable = true;
    return found;
  }
  const std::string underlying = schema_.underlying(form.type);
  if (form.is_list() || underlying.find(" OF ") != std::string::npos) {
    const auto written = entity.attribute(form.name);
    found.is_present = (written && !trimmed(*written).empty()) || entity.child(form.name).first_child();
    return found;
  }
  if (is_object_type(form.type, underlying) && context_.graph.entity(entity, form.name)) {
    found.is_present = true;
    return found;
  }
  auto value = context_.graph.value(entity, form.name);
  if (!value) return found;
  found.is_written = true;
  if (value->type.empty()) value->type = form.type;
  found.value = found_value(*value, {});
  if (form.type.ends_with("Enum")) found.value.text = in_capitals(found.value.text);
  found.is_present = found.value.is_stated();
  found.is_comparable = true;
  return found;
}

std::vector<IdsAttributeValue> IdsModel::attributes(const Element& entity) {
  std::vector<IdsAttributeValue> values;
  const auto* forms = schema_.attributes(entity_class(entity));
  if (forms == nullptr) return values;
  values.reserve(forms->size());
  for (const IdsAttribute& form : *forms) values.push_back(attribute(entity, form));
  return values;
}

const std::vector<IdsProperty>& IdsModel::properties(const Element& entity) {
  if (entity.key() == last_) return properties_;
  last_ = entity.key();
  properties_.clear();
  for (const Element& set : context_.graph.linked(Link::property_sets, entity)) add_set(set);
  for (const Element& set : context_.graph.linked(Link::material_properties, entity)) add_set(set);
  // A type object asked for itself.
  for (const Element& set : context_.graph.entities(entity, "HasPropertySets")) add_set(set);
  for (const Element& type : context_.graph.linked(Link::type, entity)) {
    for (const Element& set : context_.graph.entities(type, "HasPropertySets")) add_set(set);
    for (const Element& set : context_.graph.linked(Link::property_sets, type)) add_set(set);
  }
  return properties_;
}

void IdsModel::add_set(const Element& set) {
  auto found = sets_.find(set.key());
  if (found == sets_.end()) found = sets_.emplace(set.key(), read_set(set)).first;
  for (const IdsProperty& property : found->second) {
    if (!holds(properties_, property)) properties_.push_back(property);
  }
}

std::vector<IdsProperty> IdsModel::read_set(const Element& set) {
  const std::string name = context_.graph.text(set, "Name");
  std::vector<IdsProperty> properties;
  for (const char* members : {"HasProperties", "Quantities", "Properties", "ExtendedProperties"}) {
    for (const Element& member : context_.graph.entities(set, members)) {
      properties.push_back(read_property(member, name));
    }
  }
  return properties.empty() ? read_predefined_set(set, name) : properties;
}

/// Sets that the schema has as entities, such as IfcDoorLiningProperties: their attributes are the properties.
std::vector<IdsProperty> IdsModel::read_predefined_set(const Element& set, const std::string& name) {
  constexpr std::array kOfEverySet{"GlobalId"sv, "OwnerHistory"sv, "Name"sv, "Description"sv, "Material"sv};
  std::vector<IdsProperty> properties;
  for (IdsAttributeValue& attribute : attributes(set)) {
    const bool is_own = std::find(kOfEverySet.begin(), kOfEverySet.end(), attribute.name) == kOfEverySet.end();
    if (is_own && attribute.is_comparable) properties.push_back({name, attribute.name, {std::move(attribute.value)}});
  }
  return properties;
}

IdsProperty IdsModel::read_property(const Element& property, const std::string& set) {
  IdsProperty read{set, context_.graph.text(property, "Name"), {}};
  const std::string_view type = ifc_type(property);
  for (const PropertyValueForm& form : kValueForms) {
    if (form.entity != type) continue;
    const Element unit = form.unit.empty() ? Element() : context_.graph.entity(property, form.unit);
    add_values(property, form.attribute, unit, read.values);
  }
  if (!type.starts_with("IfcQuantity")) return read;
  for (const auto& [attribute, measure] : kQuantityValues) {
    auto value = context_.graph.value(property, attribute);
    if (!value) continue;
    value->type = measure;
    read.values.push_back(found_value(*value, context_.graph.entity(property, "Unit")));
  }
  return read;
}

/// A list holds one element a value, a single value is held alone.
void IdsModel::add_values(const Element& property, std::string_view attribute, const Element& unit,
                          std::vector<FoundValue>& values) {
  const Element holder = property.child(attribute);
  for (Element item = holder.first_child(); item; item = item.next_sibling()) {
    const Element typed = ifc_type(item).empty() && item.first_child() ? item.first_child() : item;
    values.push_back(found_value({std::string(trimmed(typed.text())), std::string(ifc_type(typed)), typed}, unit));
  }
}

IdsClassification IdsModel::classification(const Element& reference) const {
  IdsClassification one;
  Element at = reference;
  for (int level = 0; at && ifc_type(at) == "IfcClassificationReference" && level < kMostIdsLevels; ++level) {
    for (const char* attribute : {"Identification", "ItemReference"}) {
      std::string id = context_.graph.text(at, attribute);
      if (!id.empty()) one.identifications.push_back(std::move(id));
    }
    at = context_.graph.entity(at, "ReferencedSource");
  }
  if (ifc_type(at) == "IfcClassification") one.system = context_.graph.text(at, "Name");
  return one;
}

std::vector<IdsClassification> IdsModel::classifications(const Element& entity) const {
  std::vector<IdsClassification> found;
  const auto add = [&](const Element& owner, bool is_type) {
    const std::size_t own = found.size();
    for (const Element& reference : context_.graph.linked(Link::classifications, owner)) {
      // Documents are joined to materials by the same relationship.
      if (!ifc_type(reference).starts_with("IfcClassification")) continue;
      IdsClassification one = classification(reference);
      const bool is_replaced =
          is_type && std::any_of(found.begin(), found.begin() + static_cast<std::ptrdiff_t>(own),
                                 [&](const IdsClassification& c) { return c.system == one.system; });
      if (!is_replaced) found.push_back(std::move(one));
    }
  };
  add(entity, false);
  for (const Element& type : context_.graph.linked(Link::type, entity)) add(type, true);
  return found;
}

Element IdsModel::material_of(const Element& entity) const {
  const auto own = context_.graph.linked(Link::material, entity);
  if (!own.empty()) return own.front();
  for (const Element& type : context_.graph.linked(Link::type, entity)) {
    const auto of_type = context_.graph.linked(Link::material, type);
    if (!of_type.empty()) return of_type.front();
  }
  return {};
}

bool IdsModel::has_material(const Element& entity) const {
  return static_cast<bool>(material_of(entity));
}

std::vector<std::string> IdsModel::materials(const Element& entity) const {
  std::vector<std::string> names;
  add_material(material_of(entity), 0, names);
  return names;
}

void IdsModel::add_material(const Element& definition, int depth, std::vector<std::string>& names) const {
  constexpr int kDeepest = 4;  // usage, set, layer, material
  if (!definition || depth > kDeepest) return;
  // The name of a set is not that of a material.
  if (!ifc_type(definition).ends_with("Set") && !ifc_type(definition).ends_with("Usage")) {
    for (const char* attribute : {"Name", "Category"}) {
      std::string name = context_.graph.text(definition, attribute);
      if (!name.empty()) names.push_back(std::move(name));
    }
  }
  for (const std::string_view member : kMaterialMembers) {
    for (const Element& below : context_.graph.entities(definition, member)) add_material(below, depth + 1, names);
  }
}

std::vector<Element> IdsModel::wholes(const Element& entity, std::string_view relation) const {
  std::vector<Element> found;
  std::unordered_set<const void*> seen{entity.key()};
  std::vector<Element> from{entity};
  for (int level = 0; !from.empty() && level < kMostIdsLevels; ++level) {
    std::vector<Element> next;
    for (const Element& part : from) {
      for (const WholeForm& form : kWholes) {
        if (!relation.empty() && form.relation != relation) continue;
        for (const Element& whole : context_.graph.linked(form.link, part)) {
          if (seen.insert(whole.key()).second) next.push_back(whole);
        }
      }
    }
    found.insert(found.end(), next.begin(), next.end());
    from = std::move(next);
  }
  return found;
}

}  // namespace panel_dossier
