#include "core/intake/claims/material_kinds.h"

#include <array>
#include <cstddef>
#include <fstream>
#include <optional>
#include <set>
#include <stdexcept>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

/// The columns of usual values behind kind and terms, and the property that each is of.
constexpr std::array<const char*, 4> kUsualOf{
    "Pset_MaterialCommon.MassDensity", "Pset_MaterialThermal.ThermalConductivity",
    "Pset_MaterialThermal.SpecificHeatCapacity", "Pset_MaterialHygroscopic.UpperVaporResistanceFactor"};

constexpr std::size_t kConductivity = 1;  ///< declared or for design, it is that of the same material

constexpr std::size_t kBehindTerms = 2;

struct Row {
  std::vector<std::string> fields;
  std::string place;  ///< `FILE:LINE`
};

/// The rows below the head; comments and empty lines left out.
std::vector<Row> rows_of(const std::filesystem::path& file, std::size_t fields) {
  std::ifstream stream(file);
  if (!stream)
    throw std::runtime_error("cannot read '" + file.string() + "'; give the folder of the schemas with --schemas");
  std::vector<Row> rows;
  bool head = true;
  std::size_t number = 0;
  for (std::string line; std::getline(stream, line);) {
    ++number;
    const std::string_view text = trimmed(line);
    if (text.empty() || text.front() == '#' || std::exchange(head, false)) continue;
    const std::string place = file.string() + ":" + std::to_string(number);
    auto found = csv_fields(text);
    if (!found || found->size() != fields) {
      throw std::runtime_error("'" + place + "' has not " + std::to_string(fields) + " fields");
    }
    rows.push_back({std::move(*found), place});
  }
  return rows;
}

std::vector<std::string> terms_of(const std::string& field) {
  return split(field, '|');
}

}  // namespace

MaterialKinds::MaterialKinds(const std::filesystem::path& schema_dir) {
  for (const Row& row : rows_of(schema_dir / "material_kinds.csv", kBehindTerms + kUsualOf.size())) {
    MaterialKind kind{row.fields[0], {}};
    for (std::size_t i = 0; i < kUsualOf.size(); ++i) {
      const std::string& field = row.fields[kBehindTerms + i];
      if (field.empty()) continue;
      const auto range = parse_range(field);
      if (!range) throw std::runtime_error("'" + row.place + "': '" + field + "' is no range as 0.1..2");
      kind.usual.emplace(kUsualOf[i], *range);
      if (i == kConductivity) kind.usual.emplace("Panel_Thermal.DeclaredConductivity", *range);
    }
    for (std::string& term : terms_of(row.fields[1])) by_term_.emplace(std::move(term), kinds_.size());
    kinds_.push_back(std::move(kind));
  }
  for (const Row& row : rows_of(schema_dir / "layer_terms.csv", 2)) {
    for (std::string& term : terms_of(row.fields[1])) layer_terms_.emplace(std::move(term), row.fields[0]);
  }
}

const MaterialKind* MaterialKinds::kind_of(std::string_view category) const {
  const auto found = by_term_.find(category);
  return found == by_term_.end() ? nullptr : &kinds_[found->second];
}

void MaterialKinds::name_kinds(Project& project, Reporter& report) const {
  const auto warn = [&](const Origin& origin, std::string message, std::string advice) {
    report.add({Severity::warning,
                {},
                origin.line,
                0,
                origin.entity,
                origin.global_id,
                std::move(message),
                std::move(advice)});
  };
  for (Material& material : project.materials) {
    if (material.category.empty()) continue;
    if (const MaterialKind* kind = kind_of(material.category)) {
      material.category = kind->name;
    } else {
      warn(material.origin, "category '" + material.category + "' of material '" + material.name + "' is no known term",
           "write one of schemas/material_kinds.csv; until then it is judged by its properties alone");
    }
  }
  std::set<std::string> told;
  for (Panel& panel : project.panels) {
    for (Layer& layer : panel.layers) {
      if (layer.category.empty()) continue;
      const auto term = layer_terms_.find(layer.category);
      if (term != layer_terms_.end()) {
        layer.category = term->second;
      } else if (told.insert(layer.category).second) {
        warn(layer.origin, "category '" + layer.category + "' of layer '" + layer.name + "' is no known term",
             "write one of schemas/layer_terms.csv; until then the layer is judged by its material alone");
      }
    }
  }
}

}  // namespace panel_dossier
