// Modules of the life cycle and how they add up.
#include <catch2/catch.hpp>

#include "core/api/testing/findings.h"
#include "plugins/carbon/checks.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

std::vector<Finding> of_declared_panel() {
  const DeclaredPanel model;
  return check(model);
}

}  // namespace

// EN 15804:2012+A2:2019, 6.3.5.5: biogenic carbon enters as −1 and leaves as +1, so over A to C it adds up to nothing.
// From memory. Both are kept to the milligram, hence 1e-6 kg for each of two materials.
TEST_CASE("biogenic carbon adds up to nothing over the whole life") {
  const auto all = of_declared_panel();
  const double in = step_of(finding_of(all, "carbon.a1_a3"), "A1–A3,bio");
  const double out = step_of(finding_of(all, "carbon.c1_c4"), "C,bio");
  CHECK(in < 0.0);
  CHECK(in + out == Approx(0.0).margin(2e-6));
}

// EN 15978:2011, 11.1: modules are reported apart, and module D is added to none of them. From memory. The sum of A1–A5
// of one panel is that of its three findings; 1e-9 is rounding of the sum.
TEST_CASE("the total of A1 to A5 holds these modules and no other") {
  const auto all = of_declared_panel();
  const double sum = number_of(finding_of(all, "carbon.a1_a3")) + number_of(finding_of(all, "carbon.a4")) +
                     number_of(finding_of(all, "carbon.a5"));
  CHECK(step_of(finding_of(all, "carbon.total_per_area"), "ΣA1–A5") == Approx(sum).epsilon(1e-9));
}

// EN 15804:2012+A2:2019, annex C: GWP-total = GWP-fossil + GWP-biogenic + GWP-luluc. From memory. Exact but for
// rounding.
TEST_CASE("GWP-total of the product stage is the sum of its three indicators") {
  const auto all = of_declared_panel();
  const Finding& a1_a3 = finding_of(all, "carbon.a1_a3");
  const double timber_m3 = 5 * 0.045 * 0.140 * 2.7;
  const double gypsum_kg = 2.4 * 2.7 * 0.0125 * 800.0;
  // Volume and values are kept to millionths: 1e-6 m³ of 639 kg/m³.
  CHECK(step_of(a1_a3, "A1–A3,tot") == Approx(timber_m3 * (60.0 - 700.0 + 1.0) + gypsum_kg * 0.25).margin(1e-3));
}
