#include "core/dossier/parts/annex/references.h"

#include <algorithm>
#include <variant>

#include "core/dossier/layout/number_format.h"

namespace panel_dossier {

namespace {

// A character that no name holds parts the members of the key.
constexpr char kPart = '\x1F';

std::string key_of(const Input& input, const std::string& origin) {
  // Values count as one when they print alike.
  return input.name + kPart + input.symbol + kPart + format_value(input.value, input.unit) + kPart + origin;
}

}  // namespace

std::pair<std::size_t, bool> InputList::number(const Input& input) {
  const std::string origin = short_origin(input.origin);
  const auto [entry, is_new] = numbers_.try_emplace(key_of(input, origin), numbers_.size() + 1);
  if (is_new) {
    const auto [index, is_new_source] = source_index_.try_emplace(origin, sources_.size());
    if (is_new_source) sources_.push_back({origin, {}});
    sources_[index->second].second.push_back(entry->second);
  }
  return {entry->second, is_new};
}

std::string number_ranges(std::vector<std::size_t> numbers) {
  std::sort(numbers.begin(), numbers.end());
  numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
  std::string text;
  for (std::size_t first = 0; first < numbers.size();) {
    std::size_t last = first;
    while (last + 1 < numbers.size() && numbers[last + 1] == numbers[last] + 1) ++last;
    text += (text.empty() ? "" : ", ") + std::to_string(numbers[first]);
    if (last > first) text += (last > first + 1 ? "–" : ", ") + std::to_string(numbers[last]);
    first = last + 1;
  }
  return "[" + text + "]";
}

std::string short_origin(const Origin& origin) {
  const bool of_a_set = origin.kind == OriginKind::export_file && origin.property.str().find('.') != std::string::npos;
  if (!of_a_set || origin.line == 0) return describe(origin);
  return origin.property + ", line " + std::to_string(origin.line);
}

std::set<std::string> document_ids(const Material& material, const Project& project) {
  std::set<std::string> ids;
  for (const auto& [name, property] : material.properties.all()) {
    const auto* id = std::get_if<std::string>(&property.value);
    if (id == nullptr || id->empty()) continue;
    const bool names_a_document = name.ends_with("Document") || name.ends_with("DocumentId");
    if (names_a_document || find_evidence(project, *id) != nullptr) ids.insert(*id);
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
    for (const std::string& id : document_ids(material, project)) names[id].insert(material.name);
  }
  std::vector<std::pair<std::string, std::vector<std::string>>> documents;
  documents.reserve(names.size());
  for (const auto& [id, materials] : names) documents.push_back({id, {materials.begin(), materials.end()}});
  return documents;
}

}  // namespace panel_dossier
