// Core environmental impact indicators beside global warming.
#include <catch2/catch.hpp>
#include <map>
#include <string>

#include "plugins/carbon/core_indicators/core_indicators.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

// EN 15804:2012+A2:2019, table 3: thirteen core indicators, of which four are of global warming; the units of the other
// nine. From memory. Text, so exact.
TEST_CASE("the core indicators and their units are those of the standard's table") {
  const std::map<std::string, std::string> table3{{"ODP", "kg CFC-11 eq."},
                                                  {"AP", "mol H+ eq."},
                                                  {"EP-freshwater", "kg P eq."},
                                                  {"EP-marine", "kg N eq."},
                                                  {"EP-terrestrial", "mol N eq."},
                                                  {"POCP", "kg NMVOC eq."},
                                                  {"ADP-minerals&metals", "kg Sb eq."},
                                                  {"ADP-fossil", "MJ"},
                                                  {"WDP", "m3 world eq. deprived"}};
  const auto indicators = carbon::read_core_indicators(carbon_tables().core_indicators);
  REQUIRE(indicators.size() == table3.size());
  for (const auto& indicator : indicators) {
    const auto found = table3.find(indicator.declared.names.front());
    REQUIRE(found != table3.end());
    INFO(found->first);
    bool known = false;
    for (const std::string& unit : indicator.declared.units) known = known || carbon::same_unit(unit, found->second);
    CHECK(known);
  }
}
