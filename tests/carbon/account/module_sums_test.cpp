// Modules of the life cycle and how they add up.
#include <catch2/catch.hpp>
#include <cstddef>
#include <stdexcept>
#include <string>

#include "core/api/testing/findings.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/account/modules.h"
#include "plugins/carbon/checks.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

std::vector<Finding> of_declared_panel() {
  const DeclaredPanel model;
  return check(model);
}

double cell_of_module(const DeclaredPanel& model, const std::string& module, std::size_t column) {
  const auto findings = check(model);
  const Table* table = find_table(finding_of(findings, "carbon.whole_life"), carbon::kModulesTable);
  for (const auto& row : table->rows) {
    if (std::get<std::string>(row.front()) == module) return std::get<double>(row[column]);
  }
  throw std::out_of_range("no module " + module);
}

constexpr std::size_t kBiogenic = 2;
constexpr std::size_t kTotalColumn = 4;

/// Each of three indicators of two materials is kept to the milligram.
constexpr double kOfSixRoundings = 6 * 0.5e-6;

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

// EN 15804:2012+A2:2019, annex C: GWP-total = GWP-fossil + GWP-biogenic + GWP-luluc, in every module. From memory. The
// panel holds 0.08505 m³ of softwood (60 − 700 + 1 in A1–A3, 0.5, 4, 705 and 0 in C1 to C4, −120 in D, per m³) and
// 64.8 kg of board (0.25; 0.01, 0.01, 0.01, 0.02; 0, per kg); the figures are worked out by hand.
TEST_CASE("GWP-total is the sum of the three in every module") {
  const DeclaredPanel model;
  CHECK(cell_of_module(model, "A1–A3", kTotalColumn) ==
        Approx(-38.14695).margin(kOfSixRoundings));  // 0.08505 · −639 + 64.8 · 0.25
  CHECK(cell_of_module(model, "C1", kTotalColumn) ==
        Approx(0.690525).margin(kOfSixRoundings));  // 0.08505 · 0.5 + 64.8 · 0.01
  CHECK(cell_of_module(model, "C2", kTotalColumn) ==
        Approx(0.9882).margin(kOfSixRoundings));  // 0.08505 · 4 + 64.8 · 0.01
  CHECK(cell_of_module(model, "C3", kTotalColumn) ==
        Approx(60.60825).margin(kOfSixRoundings));  // 0.08505 · 705 + 64.8 · 0.01
  CHECK(cell_of_module(model, "C4", kTotalColumn) == Approx(1.296).margin(kOfSixRoundings));  // 64.8 · 0.02
  CHECK(cell_of_module(model, "D", kTotalColumn) ==
        Approx(-11.34).margin(kOfSixRoundings));  // 0.08505 / 0.9 · −120: a tenth is waste
}

// EN 15804:2012+A2:2019, 6.3.5.5 and 6.4.4: biogenic carbon of a product with no permanent storage adds up to 0 over A
// to C (−1 on its way in, +1 on its way out); delayed release is not credited. From memory. 700 kg CO2 in each m³ of
// 0.08505 m³, given back in totals of 600 and 200 in C3 and C4, so 525 and 175 by their proportion.
TEST_CASE("biogenic carbon leaves by the modules of the end of life in proportion to their totals") {
  DeclaredPanel model;
  model.replace(model.timber, kDeclaredSet, "GwpTotalC3", 600.0);
  model.replace(model.timber, kDeclaredSet, "GwpTotalC4", 200.0);
  CHECK(cell_of_module(model, "A1–A3", kBiogenic) == Approx(-59.535).margin(kOfSixRoundings));
  CHECK(cell_of_module(model, "C3", kBiogenic) == Approx(44.65125).margin(kOfSixRoundings));
  CHECK(cell_of_module(model, "C4", kBiogenic) == Approx(14.88375).margin(kOfSixRoundings));
  CHECK(cell_of_module(model, "A5", kBiogenic) == Approx(0.0).margin(kOfSixRoundings));
}

// The same guide: A5w = WF · (A1–A3 + A4 + C2 + C3–C4) for each material, WF = 1 / (1 − WR) − 1. From memory. By hand
// for the 64.8 kg of board alone, of which 20 % is lost: WF = 0.25, A1–A3 0.25, A4 0.1 · 100 / 1000 = 0.01, C2 0.01, C3
// and C4 0.01 + 0.02 kg CO2e/kg, so 64.8 · 0.25 · 0.30 = 4.86. Values are kept to the milligram.
TEST_CASE("waste is produced, transported and disposed of, as the structural engineers' guide has it") {
  DeclaredPanel model;
  model.replace(model.timber, kDeclaredSet, "WasteRateA5", 0.0);
  CHECK(step_of(finding_of(check(model), "carbon.a5"), "A5,w") == Approx(4.86).margin(2e-6));
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

TEST_CASE("a material of which one part is known by weight alone has a mass and no volume") {
  DeclaredPanel model;
  const auto amount_of_timber = [&] {
    for (const carbon::MaterialAmount& amount : carbon::measure_amounts(model.panel(), model.project).materials) {
      if (amount.material == model.timber) return amount;
    }
    return carbon::MaterialAmount();
  };
  CHECK(amount_of_timber().volume_m3.value_or(0.0) == Approx(5 * 0.045 * 0.140 * 2.7).epsilon(1e-9));
  CHECK(amount_of_timber().pieces == 5.0);
  Part& stud = model.panel().parts[2];
  stud.volume_m3.reset();
  put(stud.properties, "Qto_MemberBaseQuantities", "NetWeight", 7.0);
  CHECK_FALSE(amount_of_timber().volume_m3);
  CHECK(amount_of_timber().mass_kg.value_or(0.0) == Approx(4 * 0.045 * 0.140 * 2.7 * 420.0 + 7.0).epsilon(1e-9));
  stud.properties = {};
  CHECK_FALSE(amount_of_timber().mass_kg);
}

TEST_CASE("figures by material pass over a finding whose values are withheld") {
  const DeclaredPanel model;
  const Finding found = checked(model, "carbon.whole_life");
  Finding withheld = found;
  withheld.values.clear();
  const auto once = carbon::sum_by_material({&found});
  REQUIRE_FALSE(once.materials.empty());
  CHECK(carbon::sum_by_material({&withheld, &found, &withheld}).cells == once.cells);
  CHECK(carbon::sum_by_material({&withheld}).materials.empty());
}

TEST_CASE("a material that is declared for no unit has no row of its own in the table of the product stage") {
  DeclaredPanel model;
  const auto rows = [&] { return find_table(checked(model, "carbon.a1_a3"), "materials")->rows.size(); };
  CHECK(rows() == 2);
  model.replace(model.gypsum, kDeclaredSet, "DeclaredUnit", std::nullopt);
  CHECK(rows() == 1);
  CHECK(checked(model, "carbon.a1_a3").verdict == Verdict::evidence_needed);
}
