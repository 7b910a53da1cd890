#include "core/intake/panels/material_reader.h"

#include <algorithm>
#include <array>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/graph/vocabulary.h"
#include "core/intake/panels/classification_reader.h"

namespace panel_dossier {

namespace {

struct SetForm {
  std::string_view entity;
  std::string_view items;
};

constexpr std::array kSets{
    SetForm{"IfcMaterialLayerSet", "MaterialLayers"},
    SetForm{"IfcMaterialProfileSet", "MaterialProfiles"},
    SetForm{"IfcMaterialConstituentSet", "MaterialConstituents"},
};

struct UsageForm {
  std::string_view entity;
  std::string_view set;
};

constexpr std::array kUsages{
    UsageForm{"IfcMaterialLayerSetUsage", "ForLayerSet"},
    UsageForm{"IfcMaterialProfileSetUsage", "ForProfileSet"},
};

}  // namespace

void MaterialReader::read() {
  for (const Element& entity : entities()) {
    Material material;
    material.name = context_.graph.text(entity, "Name");
    material.category = lower_case(context_.graph.text(entity, "Category"));
    material.properties = properties_.of_material(entity);
    const auto classifications = classifications_of(context_, entity);
    if (!classifications.empty()) material.classification = classifications.front().shown();
    const auto article = material.properties.text("Pset_ManufacturerTypeInformation", "ArticleNumber");
    if (article) material.article_number = article->value;
    material.origin = context_.report.origin(entity);
    index_[entity.key()] = project_.materials.size();
    project_.materials.push_back(std::move(material));
  }
}

void MaterialReader::check_single_definition(const Element& object) {
  const auto check = [&](const Element& at) {
    const auto definitions = context_.graph.linked(Link::material, at);
    if (definitions.size() < 2 || !several_.insert(at.key()).second) return;
    std::vector<std::string> texts;
    for (const Element& definition : definitions) {
      Element set = definition;
      for (const UsageForm& form : kUsages) {
        if (form.entity == ifc_type(definition)) set = context_.graph.entity(definition, form.set);
      }
      const std::string name =
          context_.graph.text(set, ifc_type(set) == "IfcMaterialLayerSet" ? "LayerSetName" : "Name");
      texts.push_back(std::string(ifc_type(definition)) + " '" + name + "' at line " +
                      std::to_string(context_.report.line(definition)));
    }
    context_.report.error(at, "is made of " + joined(texts, " and of "),
                          "leave it the one that is meant: take it out of the other's IfcRelAssociatesMaterial");
  };
  check(object);
  if (!context_.graph.linked(Link::material, object).empty()) return;
  for (const Element& type : context_.graph.linked(Link::type, object)) check(type);
}

Element MaterialReader::association(const Element& object) const {
  const auto own = context_.graph.linked(Link::material, object);
  if (!own.empty()) return own.front();
  for (const Element& type : context_.graph.linked(Link::type, object)) {
    const auto of_type = context_.graph.linked(Link::material, type);
    if (!of_type.empty()) return of_type.front();
  }
  return {};
}

std::optional<std::size_t> MaterialReader::index_of(const Element& material) const {
  const auto found = index_.find(material.key());
  if (found == index_.end()) return std::nullopt;
  return found->second;
}

std::vector<Element> MaterialReader::materials_in(const Element& association) const {
  Element definition = association;
  for (const UsageForm& form : kUsages) {
    if (form.entity != ifc_type(association)) continue;
    definition = context_.graph.entity(association, form.set);
  }
  const std::string_view type = ifc_type(definition);
  if (type == "IfcMaterial") return {definition};
  if (type == "IfcMaterialList") return context_.graph.entities(definition, "Materials");
  std::vector<Element> materials;
  for (const SetForm& form : kSets) {
    if (form.entity != type) continue;
    for (const Element& item : context_.graph.entities(definition, form.items)) {
      if (const Element material = context_.graph.entity(item, "Material")) materials.push_back(material);
    }
  }
  return materials;
}

std::optional<std::size_t> MaterialReader::single_material(const Element& object) {
  check_single_definition(object);
  const Element definition = association(object);
  if (!definition) return std::nullopt;
  const std::vector<Element> materials = materials_in(definition);
  if (materials.empty()) return std::nullopt;
  const bool is_single = std::all_of(materials.begin(), materials.end(),
                                     [&](const Element& material) { return material == materials.front(); });
  if (!is_single) {
    context_.report.warning(object, "has " + std::to_string(materials.size()) + " materials; none of them is used",
                            "give every part a single material");
    return std::nullopt;
  }
  return index_of(materials.front());
}

void MaterialReader::note_part(std::size_t material, const std::string& classification,
                               const std::string& article_number) {
  const auto take = [](std::optional<std::string>& common, const std::string& said) {
    if (said.empty()) return;
    if (!common) common = said;
    // One material in several products is none of them.
    if (*common != said) common = std::string();
  };
  Common& common = of_parts_[material];
  take(common.classification, classification);
  take(common.article_number, article_number);
}

void MaterialReader::add_notes(const PartNotes& notes) {
  const auto take = [](std::optional<std::string>& common, const std::optional<std::string>& said) {
    if (!said) return;
    if (!common) common = said;
    if (*common != *said) common = std::string();
  };
  for (const auto& [index, said] : notes) {
    Common& common = of_parts_[index];
    take(common.classification, said.classification);
    take(common.article_number, said.article_number);
  }
}

void MaterialReader::name_after_parts() {
  for (const auto& [index, common] : of_parts_) {
    Material& material = project_.materials[index];
    if (material.classification.empty()) material.classification = common.classification.value_or("");
    if (material.article_number.empty()) material.article_number = common.article_number.value_or("");
  }
}

Element MaterialReader::layer_set_entity(const Element& object) const {
  Element definition = association(object);
  if (ifc_type(definition) == "IfcMaterialLayerSetUsage") definition = context_.graph.entity(definition, "ForLayerSet");
  return ifc_type(definition) == "IfcMaterialLayerSet" ? definition : Element();
}

std::string MaterialReader::material_names(const Element& object) const {
  std::vector<std::string> names;
  const Element definition = association(object);
  for (const Element& material : definition ? materials_in(definition) : std::vector<Element>()) {
    std::string name = context_.graph.text(material, "Name");
    if (!name.empty() && std::find(names.begin(), names.end(), name) == names.end()) names.push_back(std::move(name));
  }
  return joined(names);
}

std::optional<LayerSet> MaterialReader::layer_set(const Element& object) {
  check_single_definition(object);
  Element definition = association(object);
  LayerSet set;
  if (ifc_type(definition) == "IfcMaterialLayerSetUsage") {
    set.usage = read_usage(definition);
    definition = context_.graph.entity(definition, "ForLayerSet");
  }
  if (ifc_type(definition) != "IfcMaterialLayerSet") return std::nullopt;
  set.at = definition;
  const std::vector<Element> layers = context_.graph.entities(definition, "MaterialLayers");
  if (!context_.budget.take(layers.size())) return std::nullopt;
  for (const Element& entity : layers) {
    if (auto layer = read_layer(entity)) set.layers.push_back(std::move(*layer));
  }
  return set;
}

std::optional<LayerSet::Usage> MaterialReader::read_usage(const Element& entity) {
  LayerSet::Usage usage;
  const std::string direction = enumeration_token(context_.graph.text(entity, "LayerSetDirection"));
  if (direction == "AXIS1") usage.direction = LayerDirection::along_x;
  if (direction == "AXIS3") usage.direction = LayerDirection::along_z;
  usage.is_positive = enumeration_token(context_.graph.text(entity, "DirectionSense")) != "NEGATIVE";
  usage.offset_m = number(context_, entity, "OffsetFromReferenceLine").value_or(0.0) * units_.length_factor();
  return usage;
}

std::optional<Layer> MaterialReader::read_layer(const Element& entity) {
  Layer layer;
  const auto thickness = required_number(context_, entity, "LayerThickness");
  if (!thickness) return std::nullopt;
  if (*thickness < 0.0) {
    context_.report.error(entity, "LayerThickness is negative", "give the thickness of the layer, 0 for a thin film");
    return std::nullopt;
  }
  const Element material = context_.graph.entity(entity, "Material");
  if (material) layer.material = index_of(material);
  layer.thickness_m = {*thickness * units_.length_factor(), context_.report.origin(entity, "LayerThickness")};
  layer.name = context_.graph.text(entity, "Name");
  if (layer.name.empty() && layer.material) layer.name = project_.materials[*layer.material].name;
  layer.category = lower_case(context_.graph.text(entity, "Category"));
  layer.is_ventilated = parse_logical(context_.graph.text(entity, "IsVentilated"));
  layer.properties = properties_.of_material(entity);
  layer.origin = context_.report.origin(entity);
  return layer;
}

}  // namespace panel_dossier
