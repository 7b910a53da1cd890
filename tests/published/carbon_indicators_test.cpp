// Indicators of global warming and the balance of biogenic carbon.
#include <catch2/catch.hpp>
#include <cstddef>
#include <stdexcept>
#include <string>

#include "core/api/testing/findings.h"
#include "plugins/carbon/account/account.h"
#include "plugins/carbon/account/account_tables.h"
#include "plugins/carbon/checks.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

double cell(const DeclaredPanel& model, const std::string& module, std::size_t column) {
  const auto findings = check(model);
  const Table* table = find_table(finding_of(findings, "carbon.whole_life"), carbon::kModulesTable);
  for (const auto& row : table->rows) {
    if (std::get<std::string>(row.front()) == module) return std::get<double>(row[column]);
  }
  throw std::out_of_range("no module " + module);
}

constexpr std::size_t kBiogenic = 2;
constexpr std::size_t kTotal = 4;

/// Each of three indicators of two materials is kept to the milligram.
constexpr double kRounding = 6 * 0.5e-6;

}  // namespace

// IUPAC, Standard atomic weights 2021, abridged: C 12.011, O 15.999, so CO2 weighs 44.009 / 12.011 = 3.6641 for each
// weight of carbon; EN 16449:2014 rounds to 44/12 = 3.6667. From memory. 0.1 % covers that rounding (0.07 %).
TEST_CASE("44/12 is the ratio of the molar masses of carbon dioxide and carbon") {
  const auto value = [](const char* row) { return carbon_tables().biogenic_carbon.number(row, "value").value().value; };
  CHECK(value("molar_mass_of_carbon_dioxide") / value("molar_mass_of_carbon") == Approx(44.009 / 12.011).epsilon(1e-3));
}

// EN 15804:2012+A2:2019, annex C: GWP-total = GWP-fossil + GWP-biogenic + GWP-luluc, in every module. From memory. The
// panel holds 0.08505 m³ of softwood (60 − 700 + 1 in A1–A3, 0.5, 4, 705 and 0 in C1 to C4, −120 in D, per m³) and
// 64.8 kg of board (0.25; 0.01, 0.01, 0.01, 0.02; 0, per kg); the figures are worked out by hand.
TEST_CASE("GWP-total is the sum of the three in every module") {
  const DeclaredPanel model;
  CHECK(cell(model, "A1–A3", kTotal) == Approx(-38.14695).margin(kRounding));  // 0.08505 · −639 + 64.8 · 0.25
  CHECK(cell(model, "C1", kTotal) == Approx(0.690525).margin(kRounding));      // 0.08505 · 0.5 + 64.8 · 0.01
  CHECK(cell(model, "C2", kTotal) == Approx(0.9882).margin(kRounding));        // 0.08505 · 4 + 64.8 · 0.01
  CHECK(cell(model, "C3", kTotal) == Approx(60.60825).margin(kRounding));      // 0.08505 · 705 + 64.8 · 0.01
  CHECK(cell(model, "C4", kTotal) == Approx(1.296).margin(kRounding));         // 64.8 · 0.02
  CHECK(cell(model, "D", kTotal) == Approx(-11.34).margin(kRounding));  // 0.08505 / 0.9 · −120: a tenth is waste
}

// EN 15804:2012+A2:2019, 6.3.5.5 and 6.4.4: biogenic carbon of a product with no permanent storage adds up to 0 over A
// to C (−1 on its way in, +1 on its way out); delayed release is not credited. From memory. 700 kg CO2 in each m³ of
// 0.08505 m³, given back in totals of 600 and 200 in C3 and C4, so 525 and 175 by their proportion.
TEST_CASE("biogenic carbon leaves by the modules of the end of life in proportion to their totals") {
  DeclaredPanel model;
  model.replace(model.timber, kDeclarationSet, "GwpTotalC3", 600.0);
  model.replace(model.timber, kDeclarationSet, "GwpTotalC4", 200.0);
  CHECK(cell(model, "A1–A3", kBiogenic) == Approx(-59.535).margin(kRounding));
  CHECK(cell(model, "C3", kBiogenic) == Approx(44.65125).margin(kRounding));
  CHECK(cell(model, "C4", kBiogenic) == Approx(14.88375).margin(kRounding));
  CHECK(cell(model, "A5", kBiogenic) == Approx(0.0).margin(kRounding));
}
