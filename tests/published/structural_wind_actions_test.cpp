// EN 1990:2002 tables A1.1 and A1.2(B), and combinations 6.4.3.2 and 6.5.3 in closed form (from memory).
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <string>

#include "core/api/support/data_table.h"
#include "plugins/structural/basis/combinations.h"

using namespace panel_dossier;
using namespace panel_dossier::structural;

namespace {

DataTable table(const char* name) {
  return DataTable(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins/structural/data" / name);
}

}  // namespace

TEST_CASE("Combination factors are those of EN 1990 table A1.1") {
  struct Row {
    const char* category;
    double psi0;
    double psi1;
    double psi2;
  };
  const DataTable factors = table("combination_factors.csv");
  for (const Row& row :
       {Row{"A", 0.7, 0.5, 0.3}, Row{"B", 0.7, 0.5, 0.3}, Row{"C", 0.7, 0.7, 0.6}, Row{"D", 0.7, 0.7, 0.6},
        Row{"E", 1.0, 0.9, 0.8}, Row{"H", 0.0, 0.0, 0.0}, Row{"S", 0.5, 0.2, 0.0}, Row{"W", 0.6, 0.2, 0.0}}) {
    const std::string key = std::string("recommended/") + row.category;
    INFO(key);
    CHECK(factors.number(key, "psi0")->value == row.psi0);
    CHECK(factors.number(key, "psi1")->value == row.psi1);
    CHECK(factors.number(key, "psi2")->value == row.psi2);
  }
}

TEST_CASE("The reduction of permanent actions is 0.85, and 0.925 in the UK") {
  // EN 1990 table A1.2(B) note 1; NA to BS EN 1990 table NA.A1.2(B).
  CHECK(table("national_annex.csv").number("recommended", "xi")->value == 0.85);
  CHECK(table("national_annex.csv").number("UK", "xi")->value == 0.925);
}

TEST_CASE("An office column by (6.10), (6.10a) and (6.10b) is 1.35·G + 1.5·Q, 1.35·G + 1.05·Q and 1.1475·G + 1.5·Q") {
  // The factors that textbooks derive for one imposed load of category B: 1.5·0.7 = 1.05 and 0.85·1.35 = 1.1475
  // (printed as 1.15). G = 100 kN, Q = 60 kN: 225.0, 198.0 and 204.75 kN.
  CombinationFactors factors;
  factors.permanent_unfavourable = 1.35;
  factors.permanent_favourable = 1.0;
  factors.variable = 1.5;
  factors.variable_psi0 = 0.7;
  factors.variable_psi2 = 0.3;
  factors.wind_psi0 = 0.6;
  factors.wind_duration = "short";
  factors.variable_duration = "medium";
  const Actions actions{100e3, 60e3, 0.0};
  const auto largest = [&] {
    double axial_n = 0.0;
    for (const Combination& one : combinations(actions, factors)) axial_n = std::max(axial_n, one.axial_n);
    return axial_n;
  };
  CHECK(largest() == Approx(225.0e3));
  factors.rule = UltimateRule::expressions_6_10a_and_b;
  factors.permanent_reduction = 0.85;
  CHECK(largest() == Approx(204.75e3));
  CHECK(combinations(actions, factors).back().axial_n == Approx(198.0e3));
  // (6.14b) and (6.16b): 160 kN and 100 + 0.3·60 = 118 kN.
  const auto serviceability = serviceability_combinations(actions, factors);
  CHECK(serviceability.at(1).axial_n == Approx(160.0e3));
  CHECK(serviceability.back().axial_n == Approx(118.0e3));
}

TEST_CASE("Loads on barriers are not below the values of EN 1991-1-1 table 6.12") {
  // Categories A, B and C1: 0.5 kN/m; the others have ranges that start at 0.8 kN/m, C5 at 3.0 kN/m.
  const DataTable loads = table("barrier_loads.csv");
  for (const char* key : {"recommended/A", "recommended/B", "recommended/C1"}) {
    CHECK(loads.number(key, "line_load_n_per_m")->value == 500.0);
  }
  for (const char* key : {"recommended/C2", "recommended/C3", "recommended/C4", "recommended/D", "recommended/E"}) {
    CHECK(loads.number(key, "line_load_n_per_m")->value >= 800.0);
  }
  CHECK(loads.number("recommended/C5", "line_load_n_per_m")->value >= 3000.0);
}
