// Global warming potential by the indicators of EN 15804 and the modules of EN 15978.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

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

}  // namespace panel_dossier::carbon
