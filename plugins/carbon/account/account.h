// The carbon account of one panel: global warming potential by the indicators of EN 15804 and the modules of EN 15978,
// how much of each material the panel holds, each material's share of each module, and a finding under way on them.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "plugins/carbon/run_inputs.h"

namespace panel_dossier::carbon {

/// Modules of the life cycle, EN 15978:2011 figure 6. B6 and B7 belong to the building, not to its panels.
enum class Module : std::size_t { a1_a3, a4, a5, b1, b2, b3, b4, b5, c1, c2, c3, c4, d };

inline constexpr std::array kModules{Module::a1_a3, Module::a4, Module::a5, Module::b1, Module::b2,
                                     Module::b3,    Module::b4, Module::b5, Module::c1, Module::c2,
                                     Module::c3,    Module::c4, Module::d};
inline constexpr std::array kEndOfLife{Module::c1, Module::c2, Module::c3, Module::c4};

/// How a module is written for readers (`A1–A3`), in a declaration's file (`A1-A3`) and in a property's name (`A1A3`).
struct ModuleName {
  std::string_view printed;
  std::string_view in_file;
  std::string_view in_property;
};
const ModuleName& name_of(Module module);
/// The module of that printed name. Throws std::invalid_argument for any other text.
Module module_printed(std::string_view name);

/// EN 15804:2012+A2:2019 annex C: GWP-total is the sum of the other three. In kg CO2e.
struct Gwp {
  double fossil = 0.0;
  double biogenic = 0.0;
  double luluc = 0.0;

  /// Exact when the three are whole millionths.
  double total() const;
  double fossil_and_luluc() const;
  /// Adds exactly, for values in whole millionths.
  Gwp& operator+=(const Gwp& other);
};

/// `factor` times each indicator, each rounded to whole millionths once.
Gwp scaled(const Gwp& gwp, double factor);

struct MaterialAmount {
  std::size_t material = 0;         ///< index into Project::materials
  std::optional<double> mass_kg;    ///< none when a part of it has neither weight nor density
  std::optional<double> volume_m3;  ///< none when a part of it is known by weight alone
  std::optional<double> pieces;     ///< none when it is measured as a layer
};

struct PanelAmounts {
  std::vector<MaterialAmount> materials;  ///< in the project's order of materials
  std::vector<std::string> missing;       ///< parts without material, layers without part, an empty panel
  std::vector<std::string> fillings;      ///< windows and doors fitted in the workshop, which have no material
};

PanelAmounts measure_amounts(const Panel& panel, const Project& project);

/// As FindingBuilder, which it holds. One for each finding; not thread-safe.
class OpenFinding {
 public:
  /// `panel` is the GlobalId, empty for a finding of the project.
  OpenFinding(const CheckDeclaration& check, std::string panel) : builder_(check, std::move(panel)) {}

  FindingBuilder& builder() { return builder_; }

  /// Notes that a declaration or document is absent, out of date or does not fit. The same words are noted once.
  void evidence_gap(std::string what) {
    if (std::find(gaps_.begin(), gaps_.end(), what) == gaps_.end()) gaps_.push_back(std::move(what));
  }

  /// As `FindingBuilder::missing`, for what every material would note again: the same words are noted once.
  void missing_once(std::string what) {
    if (std::find(noted_.begin(), noted_.end(), what) != noted_.end()) return;
    noted_.push_back(what);
    builder_.missing(std::move(what));
  }

  /// The value of an earlier finding; where it has none, its reason becomes one of this finding's of the same kind.
  std::optional<double> value_of(const Finding& earlier) {
    if (const double* value = std::get_if<double>(&earlier.value)) return *value;
    const std::string what = earlier.check + " has no value: " + earlier.reason;
    if (earlier.verdict == Verdict::evidence_needed) {
      evidence_gap(what);
    } else {
      builder_.missing(what);
    }
    return std::nullopt;
  }

  /// How many gaps of evidence are noted: unchanged over a material whose declaration may be used.
  std::size_t evidence_gaps() const { return gaps_.size(); }

  bool complete() const { return gaps_.empty() && !builder_.incomplete(); }

  /// For a finding that is not complete: `not assessed` when the model or the settings lack something, else
  /// `evidence needed`. The reason lists all of it.
  Finding close_incomplete() {
    std::string gaps;
    for (const std::string& gap : gaps_) gaps += (gaps.empty() ? "" : "; ") + gap;
    return builder_.incomplete() ? builder_.not_assessed(gaps) : builder_.needs_evidence(gaps);
  }

 private:
  FindingBuilder builder_;
  std::vector<std::string> gaps_;
  std::vector<std::string> noted_;  ///< by `missing_once`
};

/// Each indicator is rounded to the milligram once so that every total agrees. Only those modules that could be worked
/// out are there.
struct MaterialAccount {
  std::optional<Gwp>& at(Module module) { return modules[static_cast<std::size_t>(module)]; }
  const std::optional<Gwp>& at(Module module) const { return modules[static_cast<std::size_t>(module)]; }

  std::array<std::optional<Gwp>, kModules.size()> modules;
  std::optional<Gwp> packaging;  ///< biogenic carbon of its packaging, which leaves in A5; in A5 as well
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
