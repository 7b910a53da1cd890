#include <catch2/catch.hpp>

#include "plugins/thermal/transmittance/build_up.h"

using namespace panel_dossier::thermal;

TEST_CASE("one path gives the plain sum of resistances") {
  const auto result = combine({{1.0, {0.1, 3.0, 0.4}}}, 0.13, 0.04);
  CHECK(result.upper == Approx(3.67));
  CHECK(result.lower == Approx(3.67));
  CHECK(result.total == Approx(3.67));
  CHECK(result.max_relative_error() == Approx(0.0).margin(1e-12));
}

TEST_CASE("a bridged layer lies between its upper and lower limit") {
  const auto result = combine({{0.9, {4.0}}, {0.1, {1.0}}}, 0.13, 0.04);
  CHECK(result.upper == Approx(1.0 / (0.9 / 4.17 + 0.1 / 1.17)));
  CHECK(result.lower == Approx(0.17 + 1.0 / (0.9 / 4.0 + 0.1 / 1.0)));
  CHECK(result.upper > result.lower);
  CHECK(result.total == Approx((result.upper + result.lower) / 2.0));
}

TEST_CASE("a film without resistance adds nothing and divides by nothing") {
  const auto result = combine({{0.8, {0.0, 2.0}}, {0.2, {0.0, 1.0}}}, 0.13, 0.04);
  CHECK(result.layer_resistances.front() == 0.0);
  CHECK(result.lower == Approx(0.17 + 1.0 / (0.4 + 0.2)));
}

TEST_CASE("paths that are split in two give the same result") {
  const auto whole = combine({{0.85, {3.7}}, {0.15, {1.1}}}, 0.13, 0.04);
  const auto split = combine({{0.5, {3.7}}, {0.35, {3.7}}, {0.1, {1.1}}, {0.05, {1.1}}}, 0.13, 0.04);
  CHECK(split.upper == Approx(whole.upper));
  CHECK(split.lower == Approx(whole.lower));
}

// EN ISO 6946:2017, 6.7.2.5: e = (R' − R'') / (2 · R_tot); (1.5 − 1) / (1.5 + 1) = 0.2 exactly.
TEST_CASE("a ratio of limits of 1.5 is an error of 20 per cent") {
  CombinedResistance result;
  result.upper = 3.0;
  result.lower = 2.0;
  result.total = 2.5;
  CHECK(result.ratio() == Approx(1.5));
  CHECK(result.max_relative_error() == Approx(0.2));
}

TEST_CASE("equal conductivities in all sections give the homogeneous wall") {
  const double layer = 0.2 / 0.04;
  const auto result = combine({{0.7, {layer}}, {0.2, {layer}}, {0.1, {layer}}}, 0.13, 0.04);
  CHECK(result.upper == Approx(5.17).epsilon(1e-12));
  CHECK(result.lower == Approx(5.17).epsilon(1e-12));
}
