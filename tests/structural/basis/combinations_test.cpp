#include "plugins/structural/basis/combinations.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <stdexcept>
#include <string>

using namespace panel_dossier::structural;

namespace {

CombinationFactors factors() {
  CombinationFactors result;
  result.permanent_unfavourable = 1.35;
  result.permanent_favourable = 1.0;
  result.variable = 1.5;
  result.wind_psi0 = 0.6;
  result.variable_psi0 = 0.7;
  result.wind_duration = "short";
  result.variable_duration = "medium";
  result.variable_psi2 = 0.3;
  result.barrier_psi0 = 0.5;
  result.barrier_psi2 = 0.4;
  result.barrier_duration = "long";
  return result;
}

CombinationFactors split_factors() {
  CombinationFactors result = factors();
  result.rule = UltimateRule::expressions_6_10a_and_b;
  result.permanent_reduction = 0.85;
  return result;
}

template <typename AnyCombination>
const AnyCombination& named(const std::vector<AnyCombination>& all, const std::string& name) {
  for (const AnyCombination& combination : all) {
    if (combination.name == name) return combination;
  }
  throw std::out_of_range("no combination " + name);
}

}  // namespace

TEST_CASE("Without a variable load there are permanent and wind combinations only") {
  const auto all = combinations({1000.0, 0.0, 500.0}, factors());
  REQUIRE(all.size() == 3);
  CHECK(all[0].duration == "permanent");
  CHECK(all[0].line_load_n_per_m == 0.0);
  CHECK(all[1].axial_n == Approx(1000.0));
  CHECK(all[2].axial_n == Approx(1350.0));
  CHECK(all[2].line_load_n_per_m == Approx(750.0));
  CHECK(all[2].duration == "short");
}

TEST_CASE("Leading wind takes the accompanying variable load by its combination factor") {
  const auto all = combinations({1000.0, 2000.0, 500.0}, factors());
  REQUIRE(all.size() == 5);
  CHECK(all[2].name == "leading wind");
  CHECK(all[2].axial_n == Approx(1.35 * 1000.0 + 1.5 * 0.7 * 2000.0));
  CHECK(all[2].line_load_n_per_m == Approx(1.5 * 500.0));
}

TEST_CASE("Leading imposed load takes wind by its combination factor and the shorter duration") {
  const auto all = combinations({1000.0, 2000.0, 500.0}, factors());
  CHECK(all[3].name == "imposed alone");
  CHECK(all[3].duration == "medium");
  CHECK(all[4].name == "leading imposed");
  CHECK(all[4].axial_n == Approx(1.35 * 1000.0 + 1.5 * 2000.0));
  CHECK(all[4].line_load_n_per_m == Approx(1.5 * 0.6 * 500.0));
  CHECK(all[4].duration == "short");
}

TEST_CASE("A load on a barrier leads and accompanies as any other variable action") {
  const auto all = combinations({1000.0, 2000.0, 500.0, 300.0}, factors());
  REQUIRE(all.size() == 7);
  CHECK(named(all, "leading wind").barrier_n == Approx(1.5 * 0.5 * 300.0));
  const Combination& alone = named(all, "barrier load alone");
  CHECK(alone.barrier_n == Approx(1.5 * 300.0));
  CHECK(alone.line_load_n_per_m == 0.0);
  CHECK(alone.axial_n == Approx(1350.0 + 1.5 * 0.7 * 2000.0));
  CHECK(alone.duration == "medium");
  CHECK(named(all, "leading barrier load").line_load_n_per_m == Approx(1.5 * 0.6 * 500.0));
}

TEST_CASE("A variable action multiplied by zero does not shorten the load duration") {
  CombinationFactors roof = factors();
  roof.variable_psi0 = 0.0;
  roof.variable_duration = "instantaneous";
  CHECK(named(combinations({1000.0, 2000.0, 500.0}, roof), "leading wind").duration == "short");
}

TEST_CASE("(6.10b) reduces the permanent action and (6.10a) lets every variable action accompany") {
  const auto all = combinations({1000.0, 2000.0, 500.0}, split_factors());
  CHECK(named(all, "leading imposed (6.10b)").axial_n == Approx(0.85 * 1.35 * 1000.0 + 1.5 * 2000.0));
  CHECK(named(all, "leading wind (6.10b)").line_load_n_per_m == Approx(750.0));
  const Combination& a = named(all, "all accompanying (6.10a)");
  CHECK(a.axial_n == Approx(1350.0 + 1.5 * 0.7 * 2000.0));
  CHECK(a.line_load_n_per_m == Approx(1.5 * 0.6 * 500.0));
  CHECK(a.expression == "γ_G,sup · G + γ_Q · ψ_0,W · W + γ_Q · ψ_0,Q · Q");
  CHECK(named(all, "all but wind accompanying (6.10a)").duration == "medium");
  CHECK(named(all, "permanent").axial_n == Approx(1350.0));
}

TEST_CASE("The pair (6.10a) and (6.10b) is never more onerous than (6.10)") {
  for (const double imposed_n : {0.0, 100.0, 1000.0, 10000.0}) {
    const auto largest = [&](const CombinationFactors& with) {
      double axial_n = 0.0;
      for (const Combination& one : combinations({1000.0, imposed_n, 500.0}, with)) {
        axial_n = std::max(axial_n, one.axial_n);
      }
      return axial_n;
    };
    INFO("imposed load " << imposed_n << " N");
    CHECK(largest(split_factors()) <= largest(factors()));
    CHECK(largest(split_factors()) >= 0.85 * largest(factors()));
  }
}

TEST_CASE("Serviceability takes each variable action as leading once, then the quasi-permanent part") {
  const auto all = serviceability_combinations({1000.0, 2000.0, 500.0}, factors());
  REQUIRE(all.size() == 3);
  CHECK(all[0].line_load_n_per_m == Approx(500.0));
  CHECK(all[0].axial_n == Approx(1000.0 + 0.7 * 2000.0));
  CHECK(all[1].line_load_n_per_m == Approx(0.6 * 500.0));
  CHECK(all[1].axial_n == Approx(3000.0));
  CHECK(all[2].kind == Serviceability::quasi_permanent);
  CHECK(all[2].line_load_n_per_m == 0.0);
  CHECK(all[2].axial_n == Approx(1000.0 + 0.3 * 2000.0));
  CHECK(all[2].expression == "G + ψ_2,W · W + ψ_2,Q · Q");
}

TEST_CASE("Serviceability without variable loads still has a characteristic and a quasi-permanent combination") {
  const auto all = serviceability_combinations({1000.0, 0.0, 0.0}, factors());
  REQUIRE(all.size() == 2);
  CHECK(all[0].axial_n == Approx(1000.0));
  CHECK(all[1].axial_n == Approx(1000.0));
}
