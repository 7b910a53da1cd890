// Single modules: transport to the site and the waste that travels with it, waste on the way into the finished panel,
// and replacements over a study period.
#include <catch2/catch.hpp>

#include "core/api/testing/findings.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/checks.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr double kTimber_kg = 5 * 0.045 * 0.140 * 2.7 * 420.0;
constexpr double kGypsum_kg = 2.4 * 2.7 * 0.0125 * 800.0;

std::vector<Finding> findings(const DeclaredPanel& model) {
  return check(model);
}

}  // namespace

// The Institution of Structural Engineers, How to calculate embodied carbon, 2020, table of default A4 factors: by road
// at 0.1065 g CO2e for each kg and km, local 50 km 0.005, national 300 km 0.032, European 1500 km 0.160 kg CO2e/kg.
// From memory. 0.0005 is the rounding of the printed thousandth.
TEST_CASE("transport by road is what the structural engineers' guide gives for its three distances") {
  struct Case {
    double distance_m;
    double per_kg;
  };
  const Case c = GENERATE(Case{50e3, 0.005}, Case{300e3, 0.032}, Case{1500e3, 0.160});
  INFO(c.distance_m << " m");
  DeclaredPanel model;
  model.settings.set("carbon.road_transport_gwp_kgco2e_per_tonne_km", 0.1065);
  for (const std::size_t material : {model.timber, model.gypsum}) {
    model.replace(material, "Panel_Supply", "TransportDistance", c.distance_m);
  }
  const double a4 = number_of(finding_of(findings(model), "carbon.a4"));
  CHECK(a4 / (kTimber_kg + kGypsum_kg) == Approx(c.per_kg).margin(0.0005));
}

// The same guide: A5w = WF · (A1–A3 + A4 + C2 + C3–C4) for each material, WF = 1 / (1 − WR) − 1. From memory. By hand
// for the 64.8 kg of board alone, of which 20 % is lost: WF = 0.25, A1–A3 0.25, A4 0.1 · 100 / 1000 = 0.01, C2 0.01, C3
// and C4 0.01 + 0.02 kg CO2e/kg, so 64.8 · 0.25 · 0.30 = 4.86. Values are kept to the milligram.
TEST_CASE("waste is produced, transported and disposed of, as the structural engineers' guide has it") {
  DeclaredPanel model;
  model.replace(model.timber, kDeclarationSet, "WasteRateA5", 0.0);
  CHECK(step_of(finding_of(findings(model), "carbon.a5"), "A5,w") == Approx(4.86).margin(2e-6));
}

// EN 15978:2011, 9.3.3: N_R(j) = E[ReqSL / ESL(j) − 1], where E rounds up to the next whole number. From memory. Whole
// numbers, so exact.
TEST_CASE("replacements are whole periods of service after the first") {
  struct Case {
    double period;
    double life;
    double times;
  };
  const Case c = GENERATE(Case{60, 60, 0}, Case{60, 30, 1}, Case{60, 25, 2}, Case{60, 20, 2}, Case{60, 59, 1},
                          Case{50, 15, 3}, Case{60, 100, 0});
  INFO(c.period << " years, life " << c.life);
  CHECK(carbon::replacements(c.period, c.life) == c.times);
}

// The Institution of Structural Engineers, How to calculate embodied carbon, 2nd edition 2022, table of waste rates:
// waste rate and waste factor WF = 1 / (1 − WR) − 1 of plasterboard 22.5 % and 0.290, in-situ concrete 5 % and 0.053,
// timber frames 1 % and 0.010. From memory. 0.0005 is the rounding of the printed thousandth.
TEST_CASE("waste factors are those of the structural engineers' guide") {
  CHECK(carbon::waste_factor(0.225) == Approx(0.290).margin(0.0005));
  CHECK(carbon::waste_factor(0.05) == Approx(0.053).margin(0.0005));
  CHECK(carbon::waste_factor(0.01) == Approx(0.010).margin(0.0005));
  CHECK(carbon::waste_factor(0.0) == 0.0);
}
