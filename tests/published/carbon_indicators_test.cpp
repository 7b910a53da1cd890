// Indicators of global warming and the balance of biogenic carbon.
#include <catch2/catch.hpp>
#include <string>

#include "plugins/carbon/account_tables.h"
#include "plugins/carbon/gwp.h"
#include "plugins/carbon/panel_checks.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::test_support;

namespace {

Table by_module() {
  const DeclaredPanel model;
  const auto findings =
      carbon::check_panel(model.project.panels.front(), model.project, model.settings, carbon_tables());
  return *carbon::table_of(finding_of(findings, "carbon.whole_life"), carbon::kByModule);
}

}  // namespace

// IUPAC, Standard atomic weights 2021, abridged: C 12.011, O 15.999, so CO2 weighs 44.009 / 12.011 = 3.6641 for each
// weight of carbon; EN 16449:2014 rounds to 44/12 = 3.6667. From memory. 0.1 % covers that rounding (0.07 %).
TEST_CASE("44/12 is the ratio of the molar masses of carbon dioxide and carbon") {
  const auto value = [](const char* row) { return carbon_tables().biogenic_carbon.number(row, "value").value().value; };
  CHECK(value("molar_mass_of_carbon_dioxide") / value("molar_mass_of_carbon") == Approx(44.009 / 12.011).epsilon(1e-3));
}

// EN 15804:2012+A2:2019, annex C: GWP-total = GWP-fossil + GWP-biogenic + GWP-luluc, in every module. From memory.
// Whole milligrams, so exact.
TEST_CASE("GWP-total is the sum of the three in every module") {
  for (const auto& row : by_module().rows) {
    INFO(std::get<std::string>(row[0]));
    const carbon::Gwp gwp{std::get<double>(row[1]), std::get<double>(row[2]), std::get<double>(row[3])};
    CHECK(std::get<double>(row[4]) == gwp.total());
  }
}

// EN 15804:2012+A2:2019, 6.3.5.5 and 6.4.4: biogenic carbon of a product with no permanent storage adds up to 0 over A
// to C (−1 on its way in, +1 on its way out); delayed release is not credited. From memory. 1e-6 kg is the rounding of
// each of the four modules that hold some.
TEST_CASE("biogenic carbon over A to C is nothing for storage that does not last") {
  double sum = 0.0;
  for (const auto& row : by_module().rows) {
    if (std::get<std::string>(row[0]) != "D") sum += std::get<double>(row[2]);
  }
  CHECK(sum == Approx(0.0).margin(4e-6));
}
