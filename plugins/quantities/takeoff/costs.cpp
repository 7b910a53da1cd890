#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"
#include "core/api/support/take_off.h"
#include "core/api/support/words.h"
#include "plugins/quantities/checks.h"
#include "plugins/quantities/cutting/cut_parts.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/takeoff/project_total.h"

namespace panel_dossier::quantities {

const CheckDeclaration kCostsCheck{
    .id = "quantities.costs",
    .title = "Costs of materials",
    .project_title = "Costs of materials of all panels",
    .sentence =
        "The costs of a panel's materials are the sum of the net amount of each material times its rate in the "
        "settings; the project's are the sum of its panels.",
    .clause = "Net amount times rate (common practice)",
    .other_clauses = {kSumOverPanels},
    .units = {"currency"},
    .kind = CheckKind::figure,
    .scope = CheckScope::panels_and_project,
    .inputs =
        with_model({setting("quantities.rates.*.material"), setting("quantities.rates.*.unit"),
                    setting("quantities.rates.*.rate"), setting("quantities.rates.*.currency"),
                    setting("quantities.rates.*.source"), optional_setting("quantities.rates_file"),
                    optional_setting("quantities.rates.*.line"), optional_property("Panel_Filling.FactoryFitted"),
                    optional_property("Panel_Filling.Mass"), optional_property("Pset_MaterialCommon.MassDensity")}),
    .limits = {"Waste and laps.", "Labour, transport, overheads and tax.",
               "Prices that change with quantity or time, and whether a rate is still valid."},
    .role = {},
    .for_workshop = true};

namespace {

constexpr const char* kTable = "quantities.rates";
constexpr std::string_view kPrefix = "quantities.rates.";
constexpr const char* kPriced = "priced";

/// The price of a material.
struct Rate {
  std::string material;  ///< name in the export
  std::string unit;      ///< `m3`, `m2`, `m`, `kg` or `piece`
  Sourced<double> rate;  ///< in `currency` for one unit, at least 0
  std::string currency;
  std::string source;
};

bool is_unit(const std::string& unit) {
  return unit == "m3" || unit == "m2" || unit == "m" || unit == "kg" || unit == "piece";
}

bool is_currency(const std::string& code) {
  return code.size() == 3 && std::all_of(code.begin(), code.end(), [](char c) { return c >= 'A' && c <= 'Z'; });
}

/// Row `row` of the table, where it can be used; else what is wrong with it is noted.
std::optional<Rate> read_rate(FindingBuilder& finding, const Settings& settings, std::size_t row,
                              const std::string& material) {
  const std::string key = std::string(kPrefix) + std::to_string(row);
  const auto unit = settings.text(key + ".unit");
  const auto rate = settings.number(key + ".rate");
  const auto currency = settings.text(key + ".currency");
  const auto source = settings.text(key + ".source");
  std::optional<std::string> wrong;
  if (!unit || !is_unit(unit->value)) wrong = ".unit' must be m3, m2, m, kg or piece";
  if (!rate || !std::isfinite(rate->value) || rate->value < 0.0) wrong = ".rate' must be a number of at least 0";
  if (!currency || !is_currency(currency->value)) wrong = ".currency' must be three capital letters of ISO 4217:2015";
  if (!source || source->value.empty()) wrong = ".source' must say where the rate comes from";
  if (wrong) {
    finding.missing("setting '" + key + *wrong);
    return std::nullopt;
  }
  const Origin origin = settings_row_origin(settings, kTable, row, "rate");
  return Rate{material, unit->value, {rate->value, origin}, currency->value, source->value};
}

/// Settings `quantities.rates.N`, N from 0 without gaps. What is absent or unusable, a material named twice, and
/// different currencies are noted as missing.
std::vector<Rate> read_rates(FindingBuilder& finding, const Settings& settings) {
  std::vector<Rate> rates;
  std::set<std::string> materials;
  std::set<std::string> used_currencies;
  for (std::size_t i = 0;; ++i) {
    const std::string row = std::string(kPrefix) + std::to_string(i);
    const auto material = settings.text(row + ".material");
    if (!material) break;
    auto rate = read_rate(finding, settings, i, material->value);
    if (!rate) continue;
    if (!materials.insert(rate->material).second) {
      finding.missing("setting '" + row + "' names material '" + rate->material + "' again; keep one rate");
    }
    used_currencies.insert(rate->currency);
    rates.push_back(std::move(*rate));
  }
  if (used_currencies.size() > 1) {
    finding.missing("settings 'quantities.rates' mix currencies (" +
                    joined({used_currencies.begin(), used_currencies.end()}) + "); give all rates in one");
  }
  if (rates.empty() && !finding.incomplete()) {
    finding.missing("settings 'quantities.rates' give no usable rate; number them from 0, each with a material");
  }
  return rates;
}

/// All that a panel holds of one material, in every unit that a rate may have.
struct Amounts {
  std::map<std::string, ExactSum> by_unit;
  std::map<std::string, int> parts_by_unit;  ///< parts measured in the unit
  int parts = 0;

  void add(const std::string& unit, double amount) {
    by_unit[unit].add(amount);
    ++parts_by_unit[unit];
  }
  /// None when some part of the material has no measure in the unit.
  std::optional<double> in(const std::string& unit) const {
    const auto found = by_unit.find(unit);
    if (found == by_unit.end() || parts_by_unit.at(unit) != parts) return std::nullopt;
    return found->second.total();
  }
};

using AmountsByMaterial = std::map<MaterialKey, Amounts>;

void add_cut_parts(const Panel& panel, const Project& project, const CutParts& cut, AmountsByMaterial& amounts) {
  for (const CutPart& piece : cut.parts) {
    const Part& part = panel.parts[piece.part];
    Amounts& of = amounts[material_key(project, part.material)];
    of.add("m3", net_volume_m3(piece, part));
    of.add(is_framing(part.kind) ? "m" : "m2", net_measure(piece, part));
  }
}

/// Everything that is in the take-off of masses: parts, and windows and doors that the factory fits.
void add_items(const Panel& panel, const Project& project, const TakeOff& measured, AmountsByMaterial& amounts) {
  for (const TakeOffItem& item : measured.items) {
    const Part* part = item.part ? &panel.parts[*item.part] : nullptr;
    Amounts& of = amounts[part == nullptr ? MaterialKey{kFillings, {}} : material_key(project, part->material)];
    ++of.parts;
    of.add("piece", part != nullptr && part->kind == PartKind::fastener ? part->count : 1.0);
    if (item.mass_kg) of.add("kg", *item.mass_kg);
  }
}

AmountsByMaterial amounts_of(const Panel& panel, const Project& project, const CutParts& cut) {
  AmountsByMaterial amounts;
  add_cut_parts(panel, project, cut, amounts);
  add_items(panel, project, take_off(panel, project), amounts);
  return amounts;
}

/// What the panel holds that no part, or no clear statement, tells of.
void note_unmeasured(FindingBuilder& finding, const Panel& panel, const CutParts& cut) {
  for (const std::string& what : cut.missing) finding.missing(what);
  if (cut.parts.empty() && cut.missing.empty()) finding.missing("the export gives no parts to measure in this panel");
  for (const std::size_t layer : layers_without_parts(panel)) finding.missing(missing_part_of(panel.layers[layer]));
  for (const Opening& opening : panel.openings) {
    if (opening.filling_entity.empty()) continue;
    const auto fitted = opening.filling_properties.logical("Panel_Filling", "FactoryFitted");
    if (!fitted) finding.missing("'" + opening.filling_name + "' does not say Panel_Filling.FactoryFitted");
    const auto mass = opening.filling_properties.number("Panel_Filling", "Mass");
    if (fitted && fitted->value && (!mass || !(mass->value > 0.0))) {
      finding.missing("'" + opening.filling_name + "' is factory fitted but has no positive Panel_Filling.Mass");
    }
  }
}

std::string unit_name(const std::string& unit) {
  if (unit == "m3") return "m³";
  return unit == "m2" ? "m²" : unit;
}

std::string rate_text(double rate) {
  std::array<char, 32> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), rate);
  return {buffer.data(), end};
}

/// How many things of the export a rate of this name may be for.
std::size_t bearers_of(const Project& project, const std::string& name) {
  return materials_named(project, name) + (name == kFillings ? 1 : 0);
}

/// A material with its one rate, and how much the panel has of it.
struct PricedMaterial {
  MaterialKey material;
  const Rate* rate = nullptr;
  double amount = 0.0;  ///< in the unit of the rate

  double cost() const { return rounded_to_millionth(amount * rate->rate.value); }
};

/// Prices of building materials for each kg in currencies of like worth, widely (common practice); fixings and films
/// cost more by weight. A rate for another unit than it is meant for lies outside.
constexpr double kLeastPerKg = 0.03;
constexpr double kLargestPerKg = 30.0;
constexpr double kLargestOfLightGoods = 500.0;
constexpr std::array<std::string_view, 4> kCurrenciesOfLikeWorth{"GBP", "EUR", "USD", "CHF"};

/// Why a rate cannot be for the unit that it names; empty where it can, and where that cannot be told.
std::string implausible_rate(const Project& project, const PricedMaterial& priced, const Amounts& amounts) {
  const auto mass_kg = amounts.in("kg");
  const Rate& rate = *priced.rate;
  const bool comparable = std::find(kCurrenciesOfLikeWorth.begin(), kCurrenciesOfLikeWorth.end(), rate.currency) !=
                          kCurrenciesOfLikeWorth.end();
  // A rate of nothing is one that the settings confirm: of goods that the client gives.
  if (!mass_kg || !(*mass_kg > 0.0) || !(priced.amount > 0.0) || !comparable || rate.rate.value <= 0.0) return {};
  const Material* material = material_at(project, priced.material.index);
  const bool is_light = material == nullptr || material->category == "plastic" || rate.unit == "piece";
  const double largest = is_light ? kLargestOfLightGoods : kLargestPerKg;
  const double per_kg = rate.rate.value * priced.amount / *mass_kg;
  if (per_kg >= kLeastPerKg && per_kg <= largest) return {};
  return "would cost " + fixed_text(per_kg, 3) + " " + rate.currency + " a kg by its rate of " +
         rate_text(rate.rate.value) + " for one " + unit_name(rate.unit) + " (" + describe(rate.rate.origin) +
         "), outside of the usual " + fixed_text(kLeastPerKg, 2) + " to " + fixed_text(largest, 0) +
         ": correct rate or unit";
}

/// What a panel holds, priced; and what of it cannot be.
struct Pricing {
  std::vector<PricedMaterial> priced;
  std::vector<std::string> unpriced;  ///< why, in words
};

/// Why the material has no price; else `found` is filled.
std::string price_material(const Project& project, const MaterialKey& material, const Amounts& amounts,
                           const std::vector<Rate>& rates, PricedMaterial& found) {
  const bool nameless = !material.index && material.name != kFillings;
  if (nameless) return "belongs to parts without a material; give each one in the export";
  const auto rate = std::find_if(rates.begin(), rates.end(),
                                 [&](const Rate& candidate) { return candidate.material == material.name; });
  if (rate == rates.end()) return "has no rate; add a row to the file of 'quantities.rates_file'";
  if (const std::size_t bearers = bearers_of(project, material.name); bearers > 1) {
    return "is the name of " + std::to_string(bearers) +
           " materials, so which of them its rate is for is not known; give each a name of its own in the export";
  }
  const auto amount = amounts.in(rate->unit);
  if (!amount) return "is not all measured in " + unit_name(rate->unit) + "; give a rate in another unit";
  found = {material, &*rate, *amount};
  return implausible_rate(project, found, amounts);
}

Pricing price(const Project& project, const AmountsByMaterial& amounts, const std::vector<Rate>& rates) {
  Pricing pricing;
  for (const auto& [material, of] : amounts) {
    PricedMaterial found;
    const std::string why = price_material(project, material, of, rates, found);
    if (why.empty()) {
      pricing.priced.push_back(std::move(found));
    } else {
      pricing.unpriced.push_back("not priced: '" + printed_name(project, material) + "' " + why);
    }
  }
  return pricing;
}

/// By material and its rate: amount in the unit of the rate, cost in the currency.
using CostRows = Rows<std::pair<MaterialKey, const Rate*>>;

CostRows rows_of(const Pricing& pricing) {
  CostRows rows;
  for (const PricedMaterial& of : pricing.priced) rows[{of.material, of.rate}] = {of.amount, of.cost()};
  return rows;
}

Table cost_table(const CostRows& rows, const std::string& currency) {
  Table table{"Costs by material",
              {{"material", ""}, {"unit", ""}, {"rate", currency}, {"source", ""}, {"net", ""}, {"cost", currency}},
              {}};
  for (const auto& [key, numbers] : rows) {
    const Rate& rate = *key.second;
    table.rows.push_back(
        {key.first.name, unit_name(rate.unit), rate_text(rate.rate.value), rate.source, numbers[0], numbers[1]});
  }
  return table;
}

/// What the panels hold, under the names that rates have.
std::set<std::string> materials_used(const Project& project) {
  std::set<std::string> used;
  for (const Panel& panel : project.panels) {
    for (const Part& part : panel.parts) used.insert(material_key(project, part.material).name);
    for (const Opening& opening : panel.openings) {
      const auto fitted = opening.filling_properties.logical("Panel_Filling", "FactoryFitted");
      if (fitted && fitted->value) used.insert(kFillings);
    }
  }
  return used;
}

/// Tells rates whose material is in no panel.
void note_unused(const Project& project, const std::vector<Rate>& rates, std::vector<std::string>& notes) {
  const std::set<std::string> used = materials_used(project);
  std::vector<std::string> names;
  for (const Rate& rate : rates) {
    if (used.count(rate.material) == 0) names.push_back("'" + rate.material + "'");
  }
  if (names.empty()) return;
  notes.push_back("Rates of materials that no panel uses: " + joined(names) +
                  "; look for a name that is written in another way in the export.");
}

/// Of the panels whose costs could be worked out in part; none when there is no such panel.
std::optional<double> sum_of_priced(const std::vector<PanelFindings>& panels, const std::string& currency) {
  ExactSum sum;
  bool any = false;
  for (const PanelFindings& panel : panels) {
    for (const Finding& finding : panel.findings) {
      const auto priced =
          finding.check == kCostsCheck.id ? find_value(finding, kPriced, currency) : std::optional<double>();
      if (!priced) continue;
      sum.add(*priced);
      any = true;
    }
  }
  return any ? std::optional(sum.total()) : std::nullopt;
}

}  // namespace

bool rates_given(const Settings& settings) {
  const auto first = settings.all().lower_bound(kPrefix);
  return first != settings.all().end() && first->first.starts_with(kPrefix);
}

Finding costs(const Panel& panel, const Project& project, const Settings& settings) {
  FindingBuilder finding(kCostsCheck, panel.global_id);
  const std::vector<Rate> rates = read_rates(finding, settings);
  const CutParts cut = cut_parts(panel);
  note_unmeasured(finding, panel, cut);
  if (finding.incomplete()) return finding.not_assessed();

  const std::string& currency = rates.front().currency;
  const Pricing pricing = price(project, amounts_of(panel, project, cut), rates);
  for (const std::string& why : pricing.unpriced) finding.missing(why);
  ExactSum total;
  for (const PricedMaterial& of : pricing.priced) {
    finding.number("rate of " + of.material.name, "k", currency + "/" + unit_name(of.rate->unit), of.rate->rate, "");
    total.add(of.cost());
  }
  const bool any = !pricing.priced.empty();
  if (any) finding.table(cost_table(rows_of(pricing), currency));
  finding.step("sum of what is priced", "K_p", total.total(), currency, any ? "K_p = sum(cost)" : "");
  finding.value(kPriced, total.total(), currency);
  finding.note(
      "Materials as built in, at the rates of the settings; without waste, labour, transport, overheads and tax.");
  return finding.inform(total.total(), currency);
}

Finding project_costs(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings) {
  // What it notes is noted with each panel.
  FindingBuilder unread(kCostsCheck, "");
  const std::vector<Rate> rates = read_rates(unread, settings);
  const std::string currency = rates.empty() ? "" : rates.front().currency;
  Finding total = project_total({kCostsCheck, currency, 2}, project, panels, [&] {
    RowSums<CostRows::key_type> sums;
    for (const PanelFindings& panel : panels) {
      const AmountsByMaterial amounts = amounts_of(*panel.panel, project, cut_parts(*panel.panel));
      add_rows(sums, rows_of(price(project, amounts, rates)));
    }
    return cost_table(totals_of(sums), currency);
  });
  if (total.verdict == Verdict::not_assessed) {
    if (const auto priced = sum_of_priced(panels, currency)) {
      total.steps.push_back({"sum of what is priced in all panels", "K_p", *priced, currency, ""});
    }
  }
  note_unused(project, rates, total.notes);
  return total;
}

}  // namespace panel_dossier::quantities
