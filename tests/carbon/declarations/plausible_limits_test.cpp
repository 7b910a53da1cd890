// How far declared figures may lie from what can be, from both sides of each limit.
#include <catch2/catch.hpp>
#include <cstddef>
#include <string>

#include "core/api/testing/findings.h"
#include "plugins/carbon/declarations/declaration_facts.h"
#include "plugins/carbon/declarations/declaration_reader.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

DeclaredPanel with_wood(const char* name, double figure) {
  DeclaredPanel model;
  model.replace(model.timber, kDeclaredSet, name, figure);
  return model;
}

/// The board's declaration is a file of these rows.
DeclaredPanel with_file_of_board(const std::string& rows) {
  DeclaredPanel model;
  model.replace(model.gypsum, kDeclaredSet, "DocumentId", std::string("EPD-2"));
  model.project.evidence.push_back({"EPD-2", "EPD-2", "evidence/EPD-2.csv", EvidenceStatus::present, {}});
  model.files["EPD-2"].content =
      carbon::read_declaration_csv("field,module,value,unit\n" + rows, "evidence/EPD-2.csv", "EPD-2").declaration;
  return model;
}

DeclaredPanel with_density(double kg_per_m3) {
  return with_file_of_board("density,," + std::to_string(kg_per_m3) + ",kg/m3\nGWP-fossil,A1-A3,0.25,kg CO2e\n");
}

/// The board of 12.5 mm is declared for each m² of another thickness.
DeclaredPanel with_thickness(double declared_m) {
  DeclaredPanel model;
  model.panel().thickness_m.value = 0.0;  // the lining is the innermost
  add_layer(model.panel(), "lining", "finish", model.gypsum, 0.0125);
  model.replace(model.gypsum, kDeclaredSet, "DeclaredUnit", std::string("m2"));
  model.replace(model.gypsum, kDeclaredSet, "DeclaredThickness", declared_m);
  model.replace(model.gypsum, kDeclaredSet, "GwpFossilA1A3", 2.5);
  return model;
}

/// What C3 returns of biogenic carbon, beside a little fossil carbon.
DeclaredPanel returning(std::size_t material, double biogenic) {
  DeclaredPanel model;
  model.replace(material, kDeclaredSet, "GwpFossilC3", 0.01);
  model.replace(material, kDeclaredSet, "GwpBiogenicC3", biogenic);
  model.replace(material, kDeclaredSet, "GwpLulucC3", 0.0);
  model.replace(material, kDeclaredSet, "GwpTotalC3", biogenic + 0.01);
  return model;
}

Verdict product_stage(const DeclaredPanel& model) {
  const Finding found = checked(model, "carbon.a1_a3");
  UNSCOPED_INFO(found.reason);
  return found.verdict;
}

Verdict end_of_life(const DeclaredPanel& model) {
  return checked(model, "carbon.c1_c4").verdict;
}

bool has_note(const Finding& finding, const std::string& words) {
  for (const std::string& note : finding.notes) {
    if (note.find(words) != std::string::npos) return true;
  }
  return false;
}

constexpr const char* kCheckProduct = "check that the declaration is that of the product";

}  // namespace

// EN 16449:2014, formula (1): 44/12 · 0.5 · 420 kg/m³ / (1 + w) is 687.5 kg/m³ at 12 %, 592.3 at 30 % and 770 dry.
TEST_CASE("wood takes up from 70 % to 115 % of what its mass can hold") {
  CHECK(product_stage(with_wood("GwpBiogenicA1A3", -482.0)) == Verdict::information);
  CHECK(product_stage(with_wood("GwpBiogenicA1A3", -480.5)) == Verdict::evidence_needed);
  CHECK(product_stage(with_wood("GwpBiogenicA1A3", -790.0)) == Verdict::information);
  CHECK(product_stage(with_wood("GwpBiogenicA1A3", -791.5)) == Verdict::evidence_needed);
}

TEST_CASE("wood of unknown moisture may be dry or as wet as 30 %") {
  const auto unknown = [](double biogenic) {
    DeclaredPanel model = with_wood("GwpBiogenicA1A3", biogenic);
    model.replace(model.timber, "Panel_Timber", "ReferenceMoistureContent", {});
    return product_stage(model);
  };
  CHECK(unknown(-415.5) == Verdict::information);
  CHECK(unknown(-413.5) == Verdict::evidence_needed);
  CHECK(unknown(-885.0) == Verdict::information);
  CHECK(unknown(-886.5) == Verdict::evidence_needed);
}

TEST_CASE("wood that is stated to be dry is judged as dry") {
  const auto dry = [](double biogenic) {
    DeclaredPanel model = with_wood("GwpBiogenicA1A3", biogenic);
    model.replace(model.timber, "Panel_Timber", "ReferenceMoistureContent", 0.0);
    return product_stage(model);
  };
  // 70 % of 770 kg are 539 kg.
  CHECK(dry(-540.0) == Verdict::information);
  CHECK(dry(-537.0) == Verdict::evidence_needed);
}

TEST_CASE("a density is that of the product within 5 %, to be looked at within 15 %, and another's beyond") {
  for (const double same : {761.0, 839.0}) {
    CHECK(product_stage(with_density(same)) == Verdict::information);
    CHECK_FALSE(has_note(checked(with_density(same), "carbon.a1_a3"), kCheckProduct));
  }
  for (const double near : {681.0, 759.0, 841.0, 919.0}) {
    CHECK(product_stage(with_density(near)) == Verdict::information);
    CHECK(has_note(checked(with_density(near), "carbon.a1_a3"), kCheckProduct));
  }
  for (const double other : {679.0, 921.0}) CHECK(product_stage(with_density(other)) == Verdict::evidence_needed);
}

TEST_CASE("a board is declared for another thickness up to twice and down to half of its own") {
  for (const double own : {0.0120, 0.0131}) {
    CHECK_FALSE(has_note(checked(with_thickness(own), "carbon.a1_a3"), "counted by volume"));
  }
  for (const double near : {0.0063, 0.01185, 0.01315, 0.0249}) {
    CHECK(product_stage(with_thickness(near)) == Verdict::information);
    CHECK(has_note(checked(with_thickness(near), "carbon.a1_a3"), "counted by volume"));
  }
  for (const double other : {0.0062, 0.0251}) CHECK(product_stage(with_thickness(other)) == Verdict::evidence_needed);
}

// 700 of 705 kg CO2e come back as made; the fossil carbon of A1-A3 is 60 for the wood and 0.25 for the board.
TEST_CASE("biogenic carbon comes back up to a tenth and a twentieth of the fossil carbon above what was taken up") {
  const DeclaredPanel model;
  CHECK(end_of_life(returning(model.timber, 772.5)) == Verdict::information);
  CHECK(end_of_life(returning(model.timber, 773.15)) == Verdict::evidence_needed);
  CHECK(end_of_life(returning(model.gypsum, 0.0124)) == Verdict::information);
  CHECK(end_of_life(returning(model.gypsum, 0.0130)) == Verdict::evidence_needed);
}

TEST_CASE("what packaging gives back of wood is a tenth of what the wood took up") {
  const auto with_packaging = [](double total_of_c3) {
    DeclaredPanel model = with_wood("GwpTotalC3", total_of_c3);
    model.replace(model.timber, kDeclaredSet, "GwpBiogenicA5", 700.0);
    return end_of_life(model);
  };
  CHECK(with_packaging(596.0) == Verdict::information);  // 70 and 596 of 700 are 95.1 %
  CHECK(with_packaging(594.0) == Verdict::evidence_needed);
}

// By the account 21.39 kg CO2e of fossil carbon, and -38.15 with the biogenic.
TEST_CASE("what the export states of the panel may be a tenth from the account, with or without biogenic carbon") {
  const auto stating = [](double kg) {
    DeclaredPanel model;
    put(model.panel().properties, "Pset_EnvironmentalImpactValues", "ClimateChange", kg);
    return product_stage(model);
  };
  for (const double near : {19.26, 23.51, -34.35, -41.95}) CHECK(stating(near) == Verdict::information);
  for (const double far : {19.24, 23.54, -34.31, -41.98}) CHECK(stating(far) == Verdict::not_assessed);
}

TEST_CASE("figures that differ by half a per cent of the larger agree") {
  CHECK(carbon::agree(1000.0, 1005.0));
  CHECK(carbon::agree(-1005.0, -1000.0));
  CHECK_FALSE(carbon::agree(1000.0, 1005.2));
  CHECK_FALSE(carbon::agree(1005.2, 1000.0));
  CHECK_FALSE(carbon::agree(1.0, -1.0));
  CHECK(carbon::agree(0.0, 0.0));
}

TEST_CASE("a service life may be a hundredth longer than the declaration's reference") {
  const auto lasting = [](double years) {
    DeclaredPanel model = with_file_of_board("reference_service_life,,50,years\nGWP-fossil,A1-A3,0.25,kg CO2e\n");
    model.replace(model.gypsum, "Panel_Supply", "ServiceLife", years);
    return checked(model, "carbon.b4").verdict;
  };
  CHECK(lasting(50.4) == Verdict::information);
  CHECK(lasting(50.6) == Verdict::evidence_needed);
}
