#include "plugins/quantities/cutting/cutting_problem.h"

#include <algorithm>
#include <functional>
#include <numeric>
#include <string>

namespace panel_dossier::quantities {

std::vector<LengthDemand> demands_of(std::vector<Micrometres> lengths) {
  std::sort(lengths.begin(), lengths.end(), std::greater<>());
  std::vector<LengthDemand> demands;
  for (const Micrometres length : lengths) {
    if (demands.empty() || demands.back().length != length) demands.push_back({length, 0});
    ++demands.back().count;
  }
  return demands;
}

Micrometres taken_by(const CutPattern& pattern, const std::vector<LengthDemand>& demands, Micrometres kerf) {
  Micrometres taken = 0;
  for (const auto& [item, count] : pattern.pieces) taken += count * (demands[item].length + kerf);
  return taken;
}

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

namespace {

void read_lengths(FindingBuilder& finding, const Settings& settings, StockRules& rules) {
  for (std::size_t i = 0;; ++i) {
    const std::string key = "quantities.stock_lengths_m." + std::to_string(i);
    if (settings.all().count(key) == 0) break;
    const auto length_m = finding.positive("length of stock", "L", "m", settings.number(key),
                                           "setting '" + key + "' is not a number: a length in m");
    if (length_m) rules.lengths.push_back(micrometres(*length_m));
  }
  std::sort(rules.lengths.begin(), rules.lengths.end());
  rules.lengths.erase(std::unique(rules.lengths.begin(), rules.lengths.end()), rules.lengths.end());
  if (rules.lengths.empty() && !finding.incomplete()) {
    finding.missing("setting 'quantities.stock_lengths_m' is missing: a list of lengths in m");
  }
}

void read_defects(FindingBuilder& finding, const Settings& settings, StockRules& rules) {
  const std::string key = "quantities.stock_defect_allowance_m";
  if (settings.all().count(key) == 0) return;
  const auto defects_m = finding.number("length of each bar cut away for splits and knots", "d", "m",
                                        settings.number(key), "setting '" + key + "' is not a number: a length in m");
  if (!defects_m) return;
  rules.defects = micrometres(*defects_m);
  const bool takes_a_bar = std::any_of(rules.lengths.begin(), rules.lengths.end(),
                                       [&rules](Micrometres length) { return length <= rules.defects; });
  if (rules.defects < 0 || takes_a_bar) {
    finding.missing("setting '" + key + "' must be at least 0 and less than every stock length");
    rules.defects = 0;
  }
}

}  // namespace

Micrometres read_saw_kerf(FindingBuilder& finding, const Settings& settings) {
  const auto kerf_m = finding.number("width of the saw cut", "k", "m", settings.number("quantities.saw_kerf_m"),
                                     "setting 'quantities.saw_kerf_m' is missing");
  if (kerf_m && *kerf_m < 0.0) finding.missing("setting 'quantities.saw_kerf_m' must not be negative");
  return kerf_m ? micrometres(*kerf_m) : 0;
}

StockRules read_stock_rules(FindingBuilder& finding, const Settings& settings) {
  StockRules rules;
  read_lengths(finding, settings, rules);
  rules.kerf = read_saw_kerf(finding, settings);
  read_defects(finding, settings, rules);
  return rules;
}

}  // namespace panel_dossier::quantities
