#include "plugins/carbon/account/stated_impact.h"

#include <cmath>
#include <optional>
#include <string>
#include <string_view>

#include "core/api/support/words.h"

namespace panel_dossier::carbon {

namespace {

constexpr const char* kValuesSet = "Pset_EnvironmentalImpactValues";
constexpr const char* kIndicatorsSet = "Pset_EnvironmentalImpactIndicators";
/// Of PEnum_LifeCyclePhase; A1–A3 are extraction, supply and manufacture together (common practice).
constexpr const char* kProductPhase = "PRODUCTION";

/// By which a stated figure and the account may differ where both rest on the same declarations: rounding, and loss or
/// fasteners counted in or not (common practice).
constexpr double kMayDiffer = 0.10;

std::string full(const char* set, const char* property) {
  return std::string(set) + "." + property;
}

bool is_near(double stated_kg, double own_kg) {
  return std::abs(stated_kg - own_kg) <= kMayDiffer * std::abs(own_kg);
}

void compare(const std::string& what, double stated_kg, const Origin& origin, const Gwp& own, OpenFinding& finding) {
  finding.builder().note("The export states " + fixed_text(stated_kg, 2) + " kg CO2e (" + what +
                         "); it is compared with the account and proves nothing by itself.");
  if (is_near(stated_kg, own.fossil_and_luluc()) || is_near(stated_kg, own.total())) return;
  finding.builder().missing("the export states " + fixed_text(stated_kg, 2) + " kg CO2e (" + what + ", " +
                            describe(origin) + "), but the declarations of the materials give " +
                            fixed_text(own.fossil_and_luluc(), 2) + " kg CO2e for A1–A3, or " +
                            fixed_text(own.total(), 2) +
                            " kg CO2e as GWP-total, more than 10 % apart: correct one of them, or say with " +
                            full(kIndicatorsSet, "LifeCyclePhase") + " of which phase it is");
}

/// How many of the stated unit the panel holds; none for a unit of nothing that it can be counted in.
std::optional<double> amount_in(const std::string& unit, const PanelAccount& account) {
  if (unit == "piece") return 1.0;
  if (unit == "m2" || unit == "m²") return account.panel.gross_area_m2() - account.panel.opening_area_m2();
  if (unit != "kg") return std::nullopt;
  double mass_kg = 0.0;
  for (const MaterialAmount& amount : account.amounts.materials) {
    if (!amount.mass_kg) return std::nullopt;
    mass_kg += *amount.mass_kg;
  }
  return mass_kg;
}

void compare_per_unit(const PanelAccount& account, const Sourced<double>& per_unit, const Gwp& own,
                      OpenFinding& finding) {
  const Properties& properties = account.panel.properties;
  std::string what = full(kIndicatorsSet, "ClimateChangePerUnit");
  const auto unit = properties.text(kIndicatorsSet, "Unit");
  const auto amount = unit ? amount_in(lower_case(unit->value), account) : std::nullopt;
  if (!amount) {
    finding.builder().missing(what + " (" + describe(per_unit.origin) + ") has no " + full(kIndicatorsSet, "Unit") +
                              " in which the panel can be counted: write m2, kg or piece");
    return;
  }
  what += " times " + fixed_text(*amount, 3) + " " + unit->value;
  if (const auto reference = properties.text(kIndicatorsSet, "FunctionalUnitReference")) {
    what += " by '" + reference->value + "'";
  }
  compare(what, per_unit.value * *amount, per_unit.origin, own, finding);
}

}  // namespace

std::vector<CheckInput> stated_impact_inputs() {
  return {optional_property(full(kValuesSet, "ClimateChange")),
          optional_property(full(kIndicatorsSet, "ClimateChangePerUnit")),
          optional_property(full(kIndicatorsSet, "Unit")),
          optional_property(full(kIndicatorsSet, "FunctionalUnitReference")),
          optional_property(full(kIndicatorsSet, "LifeCyclePhase"))};
}

void compare_stated_impact(const PanelAccount& account, const Gwp& product_stage, OpenFinding& finding) {
  const Properties& properties = account.panel.properties;
  const auto whole = properties.number(kValuesSet, "ClimateChange");
  const auto per_unit = properties.number(kIndicatorsSet, "ClimateChangePerUnit");
  if (!whole && !per_unit) return;
  const auto phase = properties.text(kIndicatorsSet, "LifeCyclePhase");
  if (phase && phase->value != kProductPhase) {
    finding.builder().note("What the export states of climate change is of the phase " + phase->value + " (" +
                           describe(phase->origin) + ") and is not compared.");
    return;
  }
  if (whole) compare(full(kValuesSet, "ClimateChange"), whole->value, whole->origin, product_stage, finding);
  if (per_unit) compare_per_unit(account, *per_unit, product_stage, finding);
}

}  // namespace panel_dossier::carbon
