// What materials are, by the terms that exports use for them, and what their properties usually are.
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/project.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/document/value_range.h"

namespace panel_dossier {

struct MaterialKind {
  std::string name;  ///< `wood`, `gypsum`, `insulation`, …: what Material::category holds
  /// Usual values by full name of the property, in its unit.
  std::map<std::string, ValueRange, std::less<>> usual;
};

/// The accepted terms for materials and layers: schemas/material_kinds.csv and schemas/layer_terms.csv.
class MaterialKinds {
 public:
  /// Throws std::runtime_error naming file and line for a table that is not as its head says.
  explicit MaterialKinds(const std::filesystem::path& schema_dir);

  /// The kind that a category in lower case is a term for; null for an unknown term.
  const MaterialKind* kind_of(std::string_view category) const;

  /// Puts the kind's name in place of each term in Material::category and Layer::category. A term that is not known
  /// stays and is reported, once for each; so is a layer whose category and material speak of two things.
  void name_kinds(Project& project, Reporter& report) const;

 private:
  std::vector<MaterialKind> kinds_;
  std::map<std::string, std::size_t, std::less<>> by_term_;
  std::map<std::string, std::string, std::less<>> layer_terms_;
};

}  // namespace panel_dossier
