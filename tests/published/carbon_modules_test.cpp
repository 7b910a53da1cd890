// Transport to the site, and waste on the way into the finished panel.
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

// The Institution of Structural Engineers, How to calculate embodied carbon, 2nd edition 2022, table of waste rates:
// waste rate and waste factor WF = 1 / (1 − WR) − 1 of plasterboard 22.5 % and 0.290, in-situ concrete 5 % and 0.053,
// timber frames 1 % and 0.010. From memory. 0.0005 is the rounding of the printed thousandth.
TEST_CASE("waste factors are those of the structural engineers' guide") {
  CHECK(carbon::waste_factor(0.225) == Approx(0.290).margin(0.0005));
  CHECK(carbon::waste_factor(0.05) == Approx(0.053).margin(0.0005));
  CHECK(carbon::waste_factor(0.01) == Approx(0.010).margin(0.0005));
  CHECK(carbon::waste_factor(0.0) == 0.0);
}
