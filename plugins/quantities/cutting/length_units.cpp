#include "plugins/quantities/cutting/length_units.h"

#include <algorithm>
#include <numeric>

namespace panel_dossier::quantities {

namespace {

constexpr Micrometres kMostUnits = 12000;
constexpr Micrometres kUnitsWhenRounded = 10000;

Micrometres unit_of(const std::vector<LengthDemand>& demands, const StockRules& rules) {
  Micrometres unit = 0;
  Micrometres longest = 0;
  for (const LengthDemand& demand : demands) unit = std::gcd(unit, demand.length + rules.kerf);
  for (const Micrometres stock : rules.lengths) {
    unit = std::gcd(unit, room_of(rules, stock));
    longest = std::max(longest, room_of(rules, stock));
  }
  if (unit == 0) return 1;  // nothing to measure
  return longest / unit <= kMostUnits ? unit : (longest + kUnitsWhenRounded - 1) / kUnitsWhenRounded;
}

}  // namespace

UnitLengths unit_lengths(const std::vector<LengthDemand>& demands, const StockRules& rules, Rounding rounding) {
  const Micrometres unit = unit_of(demands, rules);
  const Micrometres up = rounding == Rounding::safe ? unit - 1 : 0;
  UnitLengths result;
  for (const LengthDemand& demand : demands) result.pieces.push_back((demand.length + rules.kerf + up) / unit);
  for (const Micrometres stock : rules.lengths) result.bars.push_back(room_of(rules, stock) / unit);
  return result;
}

}  // namespace panel_dossier::quantities
