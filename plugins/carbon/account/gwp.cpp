#include "plugins/carbon/account/gwp.h"

#include <algorithm>
#include <stdexcept>
#include <string>

#include "core/api/support/exact_sum.h"

namespace panel_dossier::carbon {

namespace {

double sum_of(double a, double b) {
  return ExactSum().add(a).add(b).total();
}

}  // namespace

const ModuleName& name_of(Module module) {
  static constexpr std::array<ModuleName, kModules.size()> kNames{{{"A1–A3", "A1-A3", "A1A3"},
                                                                   {"A4", "A4", "A4"},
                                                                   {"A5", "A5", "A5"},
                                                                   {"B1", "B1", "B1"},
                                                                   {"B2", "B2", "B2"},
                                                                   {"B3", "B3", "B3"},
                                                                   {"B4", "B4", "B4"},
                                                                   {"B5", "B5", "B5"},
                                                                   {"C1", "C1", "C1"},
                                                                   {"C2", "C2", "C2"},
                                                                   {"C3", "C3", "C3"},
                                                                   {"C4", "C4", "C4"},
                                                                   {"D", "D", "D"}}};
  return kNames.at(static_cast<std::size_t>(module));
}

Module module_printed(std::string_view name) {
  const auto* const found =
      std::find_if(kModules.begin(), kModules.end(), [&](Module module) { return name_of(module).printed == name; });
  if (found == kModules.end()) throw std::invalid_argument("'" + std::string(name) + "' is no module");
  return *found;
}

double Gwp::total() const {
  return ExactSum().add(fossil).add(biogenic).add(luluc).total();
}

double Gwp::fossil_and_luluc() const {
  return sum_of(fossil, luluc);
}

Gwp& Gwp::operator+=(const Gwp& other) {
  fossil = sum_of(fossil, other.fossil);
  biogenic = sum_of(biogenic, other.biogenic);
  luluc = sum_of(luluc, other.luluc);
  return *this;
}

Gwp scaled(const Gwp& gwp, double factor) {
  return {rounded_to_millionth(gwp.fossil * factor), rounded_to_millionth(gwp.biogenic * factor),
          rounded_to_millionth(gwp.luluc * factor)};
}

}  // namespace panel_dossier::carbon
