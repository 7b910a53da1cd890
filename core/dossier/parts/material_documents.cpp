#include "core/dossier/parts/material_documents.h"

#include <map>
#include <variant>

namespace panel_dossier {

std::set<std::string> document_ids(const Material& material) {
  std::set<std::string> ids;
  for (const auto& [name, property] : material.properties.all()) {
    if (!name.ends_with(".DocumentId") && !name.ends_with(".ChainOfCustodyDocument")) continue;
    const auto* id = std::get_if<std::string>(&property.value);
    if (id != nullptr && !id->empty()) ids.insert(*id);
  }
  return ids;
}

std::vector<std::pair<std::string, std::vector<std::string>>> material_documents(const Panel& panel,
                                                                                 const Project& project) {
  std::set<std::size_t> used;
  for (const Layer& layer : panel.layers) {
    if (layer.material) used.insert(*layer.material);
  }
  for (const Part& part : panel.parts) {
    if (part.material) used.insert(*part.material);
  }
  std::map<std::string, std::set<std::string>> names;
  for (const std::size_t index : used) {
    const Material& material = project.materials[index];
    for (const std::string& id : document_ids(material)) names[id].insert(material.name);
  }
  std::vector<std::pair<std::string, std::vector<std::string>>> documents;
  documents.reserve(names.size());
  for (const auto& [id, materials] : names) documents.push_back({id, {materials.begin(), materials.end()}});
  return documents;
}

}  // namespace panel_dossier
