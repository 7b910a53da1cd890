#include "core/intake/graph/property_reader.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>

#include "core/intake/graph/duration.h"
#include "core/intake/graph/vocabulary.h"

namespace panel_dossier {

namespace {

constexpr std::size_t kLongestShown = 60;
constexpr std::string_view kQuantityPrefix = "IfcQuantity";  // its entity fixes the measure already

}  // namespace

ExpectedMeasures::ExpectedMeasures(const std::vector<PropertyListText>& lists, Reporter& report) {
  for (const PropertyRow& row : read_property_lists(lists, report)) {
    if (row.measure.starts_with(kQuantityPrefix)) continue;
    const Measure* measure = find_measure(row.measure);
    if (measure == nullptr) {
      report.file_error(0, 0, "'" + row.place + "' names '" + row.measure + "', which is no measure",
                        "write a measure type that the schema of property sets names");
      continue;
    }
    const bool plain = measure->kind == MeasureKind::pure_number;
    rows_[row.set + "." + row.property] = {measure, plain ? row.unit : std::string()};
  }
}

std::optional<std::string> ExpectedMeasures::breach(const std::string& full_name, const Measure& found) const {
  const auto row = rows_.find(full_name);
  if (row == rows_.end()) return std::nullopt;
  const auto& [measure, unit] = row->second;
  const auto kind_of = [](const Measure& one) {
    // The standard has written times as IfcTimeMeasure and as IfcDuration; either says its unit.
    return one.kind == MeasureKind::duration ? MeasureKind::quantity : one.kind;
  };
  if (kind_of(*measure) == kind_of(found) && measure->symbol == found.symbol) return std::nullopt;
  // A quantity carries its unit along, so it may stand for a plain number in that unit.
  if (found.kind == MeasureKind::quantity && !unit.empty() && unit == found.symbol) return std::nullopt;
  return std::string(measure->type) + (unit.empty() ? "" : " in " + unit);
}

namespace {

constexpr std::array kQuantities{
    QuantityForm{"IfcQuantityLength", "LengthValue", "IfcLengthMeasure"},
    QuantityForm{"IfcQuantityArea", "AreaValue", "IfcAreaMeasure"},
    QuantityForm{"IfcQuantityVolume", "VolumeValue", "IfcVolumeMeasure"},
    QuantityForm{"IfcQuantityWeight", "WeightValue", "IfcMassMeasure"},
    QuantityForm{"IfcQuantityCount", "CountValue", "IfcCountMeasure"},
    QuantityForm{"IfcQuantityTime", "TimeValue", "IfcTimeMeasure"},
};

}  // namespace

const QuantityForm* find_quantity(std::string_view entity) {
  const auto found = std::find_if(kQuantities.begin(), kQuantities.end(),
                                  [&](const QuantityForm& form) { return form.entity == entity; });
  return found == kQuantities.end() ? nullptr : &*found;
}

bool is_written_back(const Graph& graph, const Element& entity) {
  // IFC4X3 calls the description of a property its specification.
  return graph.text(entity, "Description").starts_with(kWrittenBackMark) ||
         graph.text(entity, "Specification").starts_with(kWrittenBackMark);
}

namespace {

struct AttributeForm {
  std::string_view entity;
  std::string_view attribute;
  std::string_view set;
  std::string_view measure;
};

/// The set under which `standard` in the lists names the attribute of an object.
constexpr std::string_view kFastener = "IfcMechanicalFastener";

// IFC2x3 TC1 has entities with fixed attributes where later generations have property sets (from memory).
constexpr std::array kMaterialAttributes{
    AttributeForm{"IfcGeneralMaterialProperties", "MassDensity", "Pset_MaterialCommon", "IfcMassDensityMeasure"},
    AttributeForm{"IfcGeneralMaterialProperties", "Porosity", "Pset_MaterialCommon", "IfcNormalisedRatioMeasure"},
    AttributeForm{"IfcThermalMaterialProperties", "ThermalConductivity", "Pset_MaterialThermal",
                  "IfcThermalConductivityMeasure"},
    AttributeForm{"IfcThermalMaterialProperties", "SpecificHeatCapacity", "Pset_MaterialThermal",
                  "IfcSpecificHeatCapacityMeasure"},
    AttributeForm{"IfcHygroscopicMaterialProperties", "UpperVaporResistanceFactor", "Pset_MaterialHygroscopic",
                  "IfcPositiveRatioMeasure"},
    AttributeForm{"IfcHygroscopicMaterialProperties", "LowerVaporResistanceFactor", "Pset_MaterialHygroscopic",
                  "IfcPositiveRatioMeasure"},
    AttributeForm{"IfcHygroscopicMaterialProperties", "VaporPermeability", "Pset_MaterialHygroscopic",
                  "IfcVaporPermeabilityMeasure"},
};

std::string set_name(const ReadContext& context, const Element& set) {
  const std::string name = context.graph.text(set, "Name");
  return name.empty() ? std::string(ifc_type(set)) : name;
}

/// Properties stand under another attribute name in each kind of set and generation.
std::vector<Element> members_of(const ReadContext& context, const Element& set) {
  for (const std::string_view attribute : {"HasProperties", "Quantities", "Properties", "ExtendedProperties"}) {
    std::vector<Element> members = context.graph.entities(set, attribute);
    if (!members.empty()) return members;
  }
  return {};
}

}  // namespace

Properties PropertyReader::of_object(const Element& object) {
  Properties properties;
  for (const Element& set : context_.graph.linked(Link::property_sets, object)) add_set(set, properties);
  for (const Element& type : context_.graph.linked(Link::type, object)) {
    for (const Element& set : context_.graph.entities(type, "HasPropertySets")) add_set(set, properties);
    for (const Element& set : context_.graph.linked(Link::property_sets, type)) add_set(set, properties);
  }
  if (ifc_type(object) == kFastener) add_fastener_length(object, properties);
  return properties;
}

Properties PropertyReader::of_material(const Element& material) {
  Properties properties;
  for (const Element& set : context_.graph.linked(Link::material_properties, material)) add_set(set, properties);
  return properties;
}

void PropertyReader::add_fastener_length(const Element& object, Properties& properties) {
  std::vector<Element> owners{object};
  const auto types = context_.graph.linked(Link::type, object);
  owners.insert(owners.end(), types.begin(), types.end());
  std::vector<Named> found;
  for (const Element& owner : owners) {
    auto value = context_.graph.value(owner, "NominalLength");
    if (!value) continue;
    value->type = "IfcPositiveLengthMeasure";
    append(std::string(kFastener), "NominalLength", *value, {}, owner, found);
  }
  for (const Named& named : found) properties.add(named.set, named.name, named.property);
}

void PropertyReader::add_set(const Element& set, Properties& properties) {
  const auto [known, is_new] = sets_.try_emplace(set.key());
  if (is_new) {
    std::vector<Named> own = read_set(set);
    if (!context_.budget.take(own.size() + 1)) return;
    for (Named& named : own) properties.add(named.set, named.name, std::move(named.property));
    return;
  }
  if (!known->second) known->second = read_set(set);
  if (!context_.budget.take(known->second->size() + 1)) return;
  for (const Named& named : *known->second) properties.add(named.set, named.name, named.property);
}

std::vector<PropertyReader::Named> PropertyReader::read_set(const Element& set) {
  const std::string name = set_name(context_, set);
  if (name == kResultsSet || is_written_back(context_.graph, set)) return {};
  std::vector<Named> found = read_attributes(set);
  for (const Element& member : members_of(context_, set)) {
    if (is_written_back(context_.graph, member)) continue;
    const std::string_view type = ifc_type(member);
    if (type == "IfcPropertySingleValue" || type == "IfcPropertyEnumeratedValue" || type == "IfcPropertyBoundedValue") {
      read_property(name, member, found);
    } else if (type.substr(0, 11) == "IfcQuantity") {
      read_quantity(name, member, found);
    }
  }
  return found;
}

std::vector<PropertyReader::Named> PropertyReader::read_attributes(const Element& set) {
  std::vector<Named> found;
  const std::string_view type = ifc_type(set);
  for (const AttributeForm& form : kMaterialAttributes) {
    if (form.entity != type) continue;
    auto value = context_.graph.value(set, form.attribute);
    if (!value) continue;
    value->type = form.measure;
    append(std::string(form.set), std::string(form.attribute), *value, {}, set, found);
  }
  return found;
}

void PropertyReader::read_property(const std::string& set, const Element& entity, std::vector<Named>& found) {
  const std::string_view type = ifc_type(entity);
  // Bounds say how far a value may lie, not which it is: without the set point there is none to read.
  const char* attribute = type == "IfcPropertyEnumeratedValue" ? "EnumerationValues"
                          : type == "IfcPropertyBoundedValue"  ? "SetPointValue"
                                                               : "NominalValue";
  const auto value = context_.graph.value(entity, attribute);
  if (!value) return;
  append(set, context_.graph.text(entity, "Name"), *value, context_.graph.entity(entity, "Unit"), entity, found);
}

void PropertyReader::read_quantity(const std::string& set, const Element& entity, std::vector<Named>& found) {
  const QuantityForm* form = find_quantity(ifc_type(entity));
  if (form == nullptr) return;
  auto value = context_.graph.value(entity, form->attribute);
  if (!value) return;
  value->type = form->measure;
  append(set, context_.graph.text(entity, "Name"), *value, context_.graph.entity(entity, "Unit"), entity, found);
}

std::optional<double> PropertyReader::number_in_si(const std::string& full_name, const TypedText& value,
                                                   const Measure& measure, const Element& unit, const Element& entity) {
  const bool is_duration = measure.kind == MeasureKind::duration;
  const auto number = is_duration ? seconds_of_duration(value.text) : parse_number(value.text);
  if (!number) {
    const std::string shown = "'" + full_name + "' is '" + value.text.substr(0, kLongestShown) + "', ";
    context_.report.error(entity, shown + (is_duration ? "no duration" : "not a finite number"),
                          is_duration ? "write it as in P12Y or PT36H" : "write it as in 12.5 or 1.25E1");
    return std::nullopt;
  }
  return is_duration ? number : units_.to_si(*number, measure, unit);
}

void PropertyReader::append(const std::string& set, const std::string& name, const TypedText& value,
                            const Element& unit, const Element& entity, std::vector<Named>& found) {
  const std::string full_name = set + "." + name;
  const Measure* measure = find_measure(value.type);
  if (measure == nullptr) {
    context_.report.warning(entity,
                            "'" + full_name + "' has a value of type '" + std::string(value.type) + "' and is not read",
                            "use a measure type that the schema of property sets names");
    return;
  }
  if (const auto breach = expected_.breach(full_name, *measure)) {
    context_.report.warning(entity,
                            "'" + full_name + "' has a value of type '" + std::string(value.type) + "' and is not read",
                            "write it as " + *breach + ", so that its unit is known");
    return;
  }
  Property property;
  property.origin = context_.report.origin(entity, full_name);
  if (measure->kind == MeasureKind::text) {
    property.value = value.text;
  } else if (measure->kind == MeasureKind::logical) {
    const auto logical = parse_logical(value.text);
    if (!logical) return;  // IfcLogical UNKNOWN: nothing is known, so nothing is stated
    property.value = *logical;
  } else {
    const auto in_si = number_in_si(full_name, value, *measure, unit, entity);
    if (!in_si) return;
    property.value = *in_si;
    property.unit = measure->symbol;
  }
  found.push_back({set, name, std::move(property)});
}

}  // namespace panel_dossier
