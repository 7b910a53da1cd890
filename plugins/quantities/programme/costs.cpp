#include "plugins/quantities/programme/costs.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "core/api/support/exact_sum.h"
#include "core/api/support/take_off.h"
#include "plugins/quantities/cutting/part_names.h"
#include "plugins/quantities/programme/rates.h"
#include "plugins/quantities/takeoff/part_measures.h"
#include "plugins/quantities/takeoff/project_total.h"

namespace panel_dossier::quantities {

namespace {

constexpr const char* kCheck = "quantities.costs";
constexpr const char* kPriced = "K_p";
constexpr const char* kFillings = "windows and doors, factory fitted";

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

using AmountsByMaterial = std::map<std::string, Amounts>;

void add_cut_parts(const Panel& panel, const Project& project, const CutParts& cut, AmountsByMaterial& amounts) {
  for (const CutPart& piece : cut.parts) {
    const Part& part = panel.parts[piece.part];
    Amounts& of = amounts[material_name(project, part)];
    of.add("m3", net_volume_m3(piece, part));
    of.add(is_framing(part.kind) ? "m" : "m2", net_measure(piece, part));
  }
}

/// Everything that is in the take-off of masses: parts, and windows and doors that the factory fits.
void add_items(const Panel& panel, const Project& project, const TakeOff& measured, AmountsByMaterial& amounts) {
  for (const TakeOffItem& item : measured.items) {
    const Part* part = item.part ? &panel.parts[*item.part] : nullptr;
    Amounts& of = amounts[part == nullptr ? kFillings : material_name(project, *part)];
    ++of.parts;
    of.add("piece", part != nullptr && part->kind == PartKind::fastener ? part->count : 1.0);
    if (item.mass_kg) of.add("kg", *item.mass_kg);
  }
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
    if (fitted && fitted->value && !opening.filling_properties.number("Panel_Filling", "Mass")) {
      finding.missing("'" + opening.filling_name + "' is factory fitted but has no Panel_Filling.Mass");
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

const Rate* rate_of(const std::vector<Rate>& rates, const std::string& material) {
  const auto found =
      std::find_if(rates.begin(), rates.end(), [&](const Rate& rate) { return rate.material == material; });
  return found == rates.end() ? nullptr : &*found;
}

void note_unpriced(FindingBuilder& finding, const std::string& material, const std::string& why) {
  std::string what = "not priced: '";
  finding.missing(what.append(material).append("' ").append(why));
}

/// Prices the materials; what cannot be priced is noted as missing. Gives the sum of the rest.
double price(FindingBuilder& finding, const AmountsByMaterial& amounts, const std::vector<Rate>& rates) {
  const std::string& currency = rates.front().currency;
  ExactSum total;
  Table table{"Costs by material",
              {{"material", ""}, {"unit", ""}, {"rate", currency}, {"source", ""}, {"net", ""}, {"cost", currency}},
              {}};
  for (const auto& [material, of] : amounts) {
    const Rate* rate = rate_of(rates, material);
    if (rate == nullptr) {
      note_unpriced(finding, material, "has no rate; add a row to the file of 'quantities.rates_file'");
      continue;
    }
    const std::string unit = unit_name(rate->unit);
    const auto amount = of.in(rate->unit);
    if (!amount) {
      note_unpriced(finding, material, "is not all measured in " + unit + "; give a rate in another unit");
      continue;
    }
    std::string rate_unit = currency;
    rate_unit.append("/").append(unit);
    finding.number("rate of " + material, "k", rate_unit, rate->rate, "");
    const double cost = rounded_to_millionth(*amount * rate->rate.value);
    total.add(cost);
    // As text, so that the merged table of the project keeps the rate instead of adding it up.
    table.rows.push_back({material, unit, rate_text(rate->rate.value), rate->source, *amount, cost});
  }
  if (!table.rows.empty()) finding.table(std::move(table));
  return total.total();
}

/// The step of a panel's finding that holds what is priced; none when nothing could be measured.
const Step* priced_step(const Finding& finding) {
  const auto found =
      std::find_if(finding.steps.begin(), finding.steps.end(), [](const Step& step) { return step.symbol == kPriced; });
  return found == finding.steps.end() ? nullptr : &*found;
}

/// What the panels hold, under the names that rates have.
std::set<std::string> materials_used(const Project& project) {
  std::set<std::string> used;
  for (const Panel& panel : project.panels) {
    for (const Part& part : panel.parts) used.insert(material_name(project, part));
    for (const Opening& opening : panel.openings) {
      const auto fitted = opening.filling_properties.logical("Panel_Filling", "FactoryFitted");
      if (fitted && fitted->value) used.insert(kFillings);
    }
  }
  return used;
}

/// Names of materials that have a rate and are in no panel, each in quotes.
std::string rates_unused(const Project& project, const Settings& settings) {
  // What it notes is noted with each panel.
  FindingBuilder unread(kCheck, "", "", "");
  const std::set<std::string> used = materials_used(project);
  std::string names;
  for (const Rate& rate : read_rates(unread, settings)) {
    if (used.count(rate.material) > 0) continue;
    names.append(names.empty() ? "'" : ", '").append(rate.material).append("'");
  }
  return names;
}

Finding with_partial_sum(Finding total, const std::vector<PanelFindings>& panels) {
  ExactSum sum;
  std::string currency;
  for (const PanelFindings& panel : panels) {
    for (const Finding& finding : panel.findings) {
      const Step* step = finding.check == kCheck ? priced_step(finding) : nullptr;
      if (step == nullptr) continue;
      sum.add(std::get<double>(step->value));
      currency = step->unit;
    }
  }
  if (!currency.empty())
    total.steps.push_back({"sum of what is priced", kPriced, sum.total(), currency, "K_p = Σ K_p,i"});
  return total;
}

}  // namespace

Finding costs(const Panel& panel, const Project& project, const Settings& settings) {
  FindingBuilder finding(kCheck, "Costs of materials", panel.global_id, "Net amount times rate (common practice)");
  const std::vector<Rate> rates = read_rates(finding, settings);
  const CutParts cut = cut_parts(panel);
  note_unmeasured(finding, panel, cut);
  if (finding.incomplete()) return finding.not_assessed();

  AmountsByMaterial amounts;
  add_cut_parts(panel, project, cut, amounts);
  add_items(panel, project, take_off(panel, project), amounts);
  const double priced = price(finding, amounts, rates);
  finding.step("sum of what is priced", kPriced, priced, rates.front().currency, "K_p = Σ q·k");
  finding.note(
      "Materials as built in, at the rates of the settings; without waste, labour, transport, overheads and tax.");
  return finding.inform(priced, rates.front().currency);
}

Finding project_costs(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings) {
  std::string currency;
  for (const PanelFindings& panel : panels) {
    for (const Finding& finding : panel.findings) {
      if (finding.check == kCheck && currency.empty()) currency = finding.unit;
    }
  }
  const TotalOf what{kCheck,
                     "Costs of materials of all panels",
                     "Sum over the panels (common practice)",
                     currency,
                     2,
                     "Costs by material"};
  Finding total = project_total(what, project, panels);
  if (total.verdict == Verdict::not_assessed) total = with_partial_sum(std::move(total), panels);
  const std::string unused = rates_unused(project, settings);
  if (!unused.empty()) {
    total.notes.push_back("Rates of materials that no panel uses: " + unused +
                          "; look for a name that is written in another way in the export.");
  }
  return total;
}

}  // namespace panel_dossier::quantities
