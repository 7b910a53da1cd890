#include <catch2/catch.hpp>

#include "plugins/carbon/declarations/declared_figure.h"

using namespace panel_dossier::carbon;

TEST_CASE("amounts without what the unit needs are refused with the property") {
  MaterialAmount amount;
  CHECK(declared_amount(amount, "kg", {}).gap.find("Pset_MaterialCommon.MassDensity") != std::string::npos);
  CHECK(declared_amount(amount, "m3", {}).gap == "is declared per m3 but a part of it has no volume");
  CHECK(declared_amount(amount, "piece", {}).gap == "is declared per piece but is not measured in pieces");
  amount.volume_m3 = 0.3;
  CHECK(
      declared_amount(amount, "m2", {}).gap ==
      "is declared per m2 but has no Panel_EnvironmentalDeclaration.DeclaredThickness; give the thickness of that m2");
  CHECK(declared_amount(amount, "t", {}).gap ==
        "has Panel_EnvironmentalDeclaration.DeclaredUnit 't', which is none of kg, m3, m2 and piece");
}
