// The carbon account of one panel: each material's share of each module.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/carbon/account/amounts.h"
#include "plugins/carbon/account/gwp.h"

namespace panel_dossier::carbon {

/// Each indicator is rounded to the milligram once so that every total agrees. Only those modules that could be worked
/// out are there.
struct MaterialAccount {
  std::optional<Gwp>& at(Module module) { return modules[static_cast<std::size_t>(module)]; }
  const std::optional<Gwp>& at(Module module) const { return modules[static_cast<std::size_t>(module)]; }

  std::array<std::optional<Gwp>, kModules.size()> modules;
};

/// The name of a material in tables: `softwood`, and `softwood (2)` for the second of that name in the project, so that
/// rows of two materials are never added.
std::string label_of(const Project& project, std::size_t material);
/// The material of that label, or null.
const Material* material_labelled(const Project& project, const std::string& label);

/// What the checks of one panel share. `materials` has one entry for each of `amounts.materials`.
struct PanelAccount {
  const Panel& panel;
  const Project& project;
  const Settings& settings;
  PanelAmounts amounts;
  std::vector<MaterialAccount> materials;
  std::optional<Gwp> site_assembly;  ///< the part of A5 that belongs to no material

  const Material& material(std::size_t row) const { return project.materials[amounts.materials[row].material]; }
  std::string label(std::size_t row) const { return label_of(project, amounts.materials[row].material); }
  /// Mass of the row's material in kg, recorded as an input under that name and symbol; none, noted, without density.
  std::optional<double> read_mass(std::size_t row, std::string name, std::string symbol, FindingBuilder& builder) const;
};

/// Modules that hold nothing but what a declaration states of them; undeclared is nothing, and is said to be.
inline bool is_only_declared(Module module) {
  return module == Module::b1 || module == Module::b2 || module == Module::b3 || module == Module::b5;
}

}  // namespace panel_dossier::carbon
