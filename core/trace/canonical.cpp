#include "core/trace/canonical.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>
#include <string_view>

#include "core/pipeline/record/finding_json.h"
#include "core/pipeline/record/json.h"

namespace panel_dossier {

namespace {

using nlohmann::ordered_json;

double rounded(double value) {
  constexpr double kPerUnit = 1e9;
  return std::round(value * kPerUnit) / kPerUnit;
}

ordered_json to_json(const Vec2& v) {
  return ordered_json::array({rounded(v.x), rounded(v.y)});
}

ordered_json to_json(const Vec3& v) {
  return ordered_json::array({rounded(v.x), rounded(v.y), rounded(v.z)});
}

ordered_json to_json(const Frame& frame) {
  return {{"origin", to_json(frame.origin)},
          {"x_axis", to_json(frame.x_axis)},
          {"y_axis", to_json(frame.y_axis)},
          {"z_axis", to_json(frame.z_axis)}};
}

ordered_json to_json(const std::optional<Sourced<double>>& measure) {
  return measure ? ordered_json(rounded(measure->value)) : ordered_json(nullptr);
}

ordered_json to_json(const std::optional<Box3>& box) {
  return box ? ordered_json{{"min", to_json(box->min)}, {"max", to_json(box->max)}} : ordered_json(nullptr);
}

ordered_json to_json(const std::optional<Extrusion>& solid) {
  if (!solid) return nullptr;
  return {{"outline", json_array(solid->outline, [](const Vec2& v) { return to_json(v); })},
          {"frame", to_json(solid->frame)},
          {"direction", to_json(solid->direction)},
          {"depth_m", rounded(solid->depth_m)}};
}

ordered_json to_json(const Properties& properties) {
  auto json = ordered_json::object();
  // What is withheld belongs to the panel's data all the same: it is what the export states.
  std::map<std::string_view, const Property*> stated;
  for (const auto& [name, property] : properties.all()) stated.emplace(name, &property);
  for (const auto& [name, withheld] : properties.withheld()) stated.emplace(name, &withheld.property);
  for (const auto& [name, pointer] : stated) {
    const Property& property = *pointer;
    // What library and records add is no data of the export: their files are hashed, and the findings name their rows.
    if (property.origin.kind == OriginKind::input_table) continue;
    auto& entry = json[std::string(name)];
    entry["unit"] = property.unit;
    std::visit([&entry](const auto& value) { entry["value"] = value; }, property.value);
  }
  return json;
}

/// Materials in the order of their first use by the panel, so that other panels do not change their numbers.
class UsedMaterials {
 public:
  explicit UsedMaterials(const Project& project) : project_(project) {}

  ordered_json number(std::optional<std::size_t> material) {
    if (!material) return nullptr;
    const auto place = std::ranges::find(used_, *material);
    const auto index = place - used_.begin();
    if (place == used_.end()) used_.push_back(*material);
    return index;
  }

  ordered_json list() const {
    return json_array(used_, [this](std::size_t index) {
      const Material& material = project_.materials.at(index);
      ordered_json json{
          {"name", material.name}, {"category", material.category}, {"properties", to_json(material.properties)}};
      if (!material.classification.empty()) json["classification"] = material.classification;
      if (!material.article_number.empty()) json["article_number"] = material.article_number;
      return json;
    });
  }

 private:
  const Project& project_;
  std::vector<std::size_t> used_;
};

ordered_json layer_to_json(const Layer& layer, UsedMaterials& materials) {
  return {{"name", layer.name},
          {"category", layer.category},
          {"material", materials.number(layer.material)},
          {"thickness_m", rounded(layer.thickness_m.value)},
          {"y_inside_m", rounded(layer.y_inside_m)},
          {"y_outside_m", rounded(layer.y_outside_m)},
          {"is_ventilated", layer.is_ventilated ? ordered_json(*layer.is_ventilated) : ordered_json(nullptr)},
          {"properties", to_json(layer.properties)}};
}

ordered_json part_to_json(const Part& part, UsedMaterials& materials) {
  return {{"global_id", part.global_id},
          {"name", part.name},
          {"object_type", part.object_type},
          {"kind", to_string(part.kind)},
          {"material", materials.number(part.material)},
          {"solid", to_json(part.solid)},
          {"bounds", to_json(part.bounds)},
          {"volume_m3", to_json(part.volume_m3)},
          {"length_m", to_json(part.length_m)},
          {"count", part.count},
          {"properties", to_json(part.properties)}};
}

ordered_json opening_to_json(const Opening& opening) {
  return {{"global_id", opening.global_id},           {"name", opening.name},
          {"x_min_m", rounded(opening.x_min_m)},      {"x_max_m", rounded(opening.x_max_m)},
          {"z_min_m", rounded(opening.z_min_m)},      {"z_max_m", rounded(opening.z_max_m)},
          {"filling_entity", opening.filling_entity}, {"filling_global_id", opening.filling_global_id},
          {"filling_name", opening.filling_name},     {"filling_properties", to_json(opening.filling_properties)}};
}

ordered_json evidence_to_json(const Evidence& evidence) {
  // A place in a library is none that the export gives.
  return {{"id", evidence.id},
          {"name", evidence.name},
          {"location", evidence.folder.empty() ? evidence.location : std::string()}};
}

}  // namespace

std::string canonical_panel(const Panel& panel, const Project& project) {
  UsedMaterials materials(project);
  const auto layer = [&](const Layer& item) { return layer_to_json(item, materials); };
  const auto part = [&](const Part& item) { return part_to_json(item, materials); };
  const auto evidence = [&](std::size_t index) { return evidence_to_json(project.evidence.at(index)); };
  ordered_json json{
      {"global_id", panel.global_id},
      {"mark", panel.mark},
      {"name", panel.name},
      {"type", panel.type},
      {"building", panel.building},
      {"storey", panel.storey ? ordered_json(project.storeys.at(*panel.storey).name) : ordered_json(nullptr)},
      {"frame", to_json(panel.frame)},
      {"width_m", rounded(panel.width_m.value)},
      {"height_m", rounded(panel.height_m.value)},
      {"thickness_m", rounded(panel.thickness_m.value)},
      {"outside_known", panel.outside_known},
      {"layers", json_array(panel.layers, layer)},
      {"parts", json_array(panel.parts, part)},
      {"openings", json_array(panel.openings, opening_to_json)},
      {"evidence", json_array(panel.evidence, evidence)},
      {"properties", to_json(panel.properties)}};
  if (!panel.classifications.empty()) json["classifications"] = panel.classifications;
  json["materials"] = materials.list();
  return canonical_json(json);
}

std::string canonical_findings(const std::vector<RecordedFinding>& findings) {
  std::string text = "[";
  for (const RecordedFinding& finding : findings) {
    try {
      text += (text.size() > 1 ? "," : "") + canonical_json(finding_to_json(finding));
    } catch (const std::runtime_error& error) {
      throw std::runtime_error("check '" + finding.check + "': " + error.what());
    }
  }
  return text + "]";
}

}  // namespace panel_dossier
