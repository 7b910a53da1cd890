#include "core/intake/ids/ids_schema.h"

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <fstream>
#include <functional>
#include <stdexcept>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

std::string_view schema_name(Generation generation) {
  if (generation == Generation::ifc2x3) return "IFC2X3";
  return generation == Generation::ifc4x3 ? "IFC4X3_ADD2" : "IFC4";
}

/// Calls `take` with the fields of each row of the schema.
void read_rows(const std::filesystem::path& file, std::string_view schema, std::size_t fields,
               const std::function<void(const std::vector<std::string>&)>& take) {
  std::ifstream stream(file);
  if (!stream) {
    throw std::runtime_error("cannot read '" + file.string() + "'; give the folder of the schemas with --schemas");
  }
  for (std::string line; std::getline(stream, line);) {
    if (!line.starts_with(schema) || line.size() <= schema.size() || line[schema.size()] != ',') continue;
    const std::vector<std::string> row = split(line, ',');
    if (row.size() < fields) throw std::runtime_error("'" + file.string() + "' has a row of too few fields");
    take(row);
  }
}

}  // namespace

std::string in_capitals(std::string_view name) {
  std::string capitals(name);
  std::transform(capitals.begin(), capitals.end(), capitals.begin(),
                 [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
  return capitals;
}

IdsSchema::IdsSchema(const std::filesystem::path& schema_dir, Generation generation) {
  const std::string_view schema = schema_name(generation);
  read_rows(schema_dir / "ifc/supertypes.csv", schema, 2,
            [&](const std::vector<std::string>& row) { entities_.insert(in_capitals(row[1])); });
  read_rows(schema_dir / "ifc/attributes.csv", schema, 6, [&](const std::vector<std::string>& row) {
    if (row[5] != "derived") attributes_[in_capitals(row[1])].push_back({row[3], row[4]});
  });
  read_rows(schema_dir / "ifc/types.csv", schema, 3, [&](const std::vector<std::string>& row) {
    underlying_.emplace(row[1], row[2]);
    by_capitals_.emplace(in_capitals(row[1]), row[1]);
  });
  read_rows(schema_dir / "ifc/enumerations.csv", schema, 3,
            [&](const std::vector<std::string>& row) { by_capitals_.emplace(in_capitals(row[1]), row[1]); });
}

const std::vector<IdsAttribute>* IdsSchema::attributes(const std::string& entity) const {
  const auto found = attributes_.find(entity);
  return found == attributes_.end() ? nullptr : &found->second;
}

std::string IdsSchema::underlying_in_capitals(const std::string& type) const {
  const auto found = by_capitals_.find(type);
  if (found == by_capitals_.end()) return {};
  std::string of_type = underlying(found->second);
  return of_type.empty() ? "ENUMERATION" : of_type;
}

std::string IdsSchema::underlying(const std::string& type) const {
  const auto found = underlying_.find(type);
  if (found == underlying_.end()) return {};
  // IfcPositiveLengthMeasure stands for IfcLengthMeasure, which stands for REAL.
  return found->second.starts_with("Ifc") ? underlying(found->second) : found->second;
}

}  // namespace panel_dossier
