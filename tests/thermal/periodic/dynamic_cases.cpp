// Cases of the dynamic thermal characteristics over a day.
#include "core/api/testing/check_cases.h"
#include "tests/thermal/insulated_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kTransmittance = "thermal.dynamic_transmittance";
constexpr const char* kDecrement = "thermal.decrement";
constexpr const char* kCapacity = "thermal.areal_heat_capacity";

/// Without any mass the periodic values are the steady ones.
Change without_mass() {
  return set_of_materials("Pset_MaterialCommon.MassDensity", 1e-9);
}

constexpr double kSteady = 1.0 / (kOtherResistance + 0.140 / kBetterWool_w_per_mk);
constexpr const char* kNoMass = "a density of 1e-9 kg/m³ is not quite none";
constexpr const char* kNoDensity = "material 'mineral wool' has no Pset_MaterialCommon.MassDensity";

CheckCases cases_of(const char* check, double steady, std::vector<std::string> others) {
  CheckCases cases{.check = check, .sound_project = insulated_project, .sound_settings = insulated_settings};
  cases.cases = {{.label = "as made", .verdict = Verdict::information},
                 {.label = "hardly any mass: as in the steady state",
                  .change = without_mass(),
                  .verdict = Verdict::information,
                  .value = steady,
                  .tolerance = 1e-8,
                  .why_tolerance = kNoMass,
                  .also_moves = others},
                 {.label = "no density",
                  .change = drop_of_material(kWoolMaterial, "Pset_MaterialCommon.MassDensity"),
                  .verdict = Verdict::not_assessed,
                  .reason = kNoDensity,
                  .also_moves = others},
                 {.label = "no λ",
                  .change = drop_wool(),
                  .verdict = Verdict::not_assessed,
                  .reason = kNoUValue,
                  .also_moves = {"*"}}};
  return cases;
}

const RegisterCases kTransmittanceCases{cases_of(kTransmittance, kSteady, {kDecrement, kCapacity})};
const RegisterCases kDecrementCases{cases_of(kDecrement, 1.0, {kTransmittance, kCapacity})};
const RegisterCases kCapacityCases{cases_of(kCapacity, 0.0, {kTransmittance, kDecrement})};

}  // namespace
