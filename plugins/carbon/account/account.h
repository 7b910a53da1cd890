// The carbon account of one panel: each material's share of each module.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/model/panel.h"
#include "plugins/carbon/account/amounts.h"
#include "plugins/carbon/account/gwp.h"
#include "plugins/carbon/account/open_finding.h"
#include "plugins/carbon/run_inputs.h"

namespace panel_dossier::carbon {

/// Each indicator is rounded to the milligram once so that every total agrees. Only those modules that could be worked
/// out are there.
struct MaterialAccount {
  std::optional<Gwp>& at(Module module) { return modules[static_cast<std::size_t>(module)]; }
  const std::optional<Gwp>& at(Module module) const { return modules[static_cast<std::size_t>(module)]; }

  std::array<std::optional<Gwp>, kModules.size()> modules;
};

/// How tables print a material: `softwood`, and `softwood (2)` for the second of that name in the project. For readers;
/// rows are told apart by the index of their material.
std::string label_of(const Project& project, std::size_t material);

/// What the checks of one panel share. `materials` has one entry for each of `amounts.materials`. Both arguments
/// outlive it.
struct PanelAccount {
  PanelAccount(const Panel& of_panel, const RunInputs& of_inputs);

  const Panel& panel;
  const RunInputs& inputs;
  PanelAmounts amounts;
  std::vector<MaterialAccount> materials;
  std::optional<Gwp> site_assembly;  ///< the part of A5 that belongs to no material

  /// Index into `Project::materials` of the material of a row.
  std::size_t index(std::size_t row) const { return amounts.materials[row].material; }
  const DeclaredMaterial& declared(std::size_t row) const { return inputs.materials[index(row)]; }
  const Material& material(std::size_t row) const { return *declared(row).material; }
  std::string label(std::size_t row) const { return label_of(inputs.project, index(row)); }
  /// Mass of the row's material in kg, recorded as an input under that name and symbol; none, noted, without density.
  std::optional<double> read_mass(std::size_t row, std::string name, std::string symbol, FindingBuilder& builder) const;
  /// Starts a finding of the panel: parts without material become missing, and windows and doors are named as left out.
  OpenFinding open(const CheckDeclaration& check) const;
};

/// Modules that hold nothing but what a declaration states of them; undeclared is nothing, and is said to be.
inline bool is_only_declared(Module module) {
  return module == Module::b1 || module == Module::b2 || module == Module::b3 || module == Module::b5;
}

}  // namespace panel_dossier::carbon
