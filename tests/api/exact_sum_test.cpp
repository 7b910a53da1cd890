#include "core/api/support/exact_sum.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <random>
#include <vector>

using namespace panel_dossier;

TEST_CASE("a tenth added ten times is exactly one") {
  ExactSum sum;
  double plain = 0.0;
  for (int i = 0; i < 10; ++i) {
    sum.add(0.1);
    plain += 0.1;
  }
  CHECK(sum.total() == 1.0);
  CHECK(plain != 1.0);  // why a plain sum will not do
}

TEST_CASE("values are rounded to the nearest millionth") {
  CHECK(rounded_to_millionth(1.23456749) == 1.234567);
  CHECK(rounded_to_millionth(1.23456751) == 1.234568);
  CHECK(rounded_to_millionth(-1.23456751) == -1.234568);
}

TEST_CASE("a rounded value is its own rounding") {
  std::mt19937 random(1);
  std::uniform_real_distribution<double> values(-2.0e9, 2.0e9);
  for (int i = 0; i < 10000; ++i) {
    const double once = rounded_to_millionth(values(random));
    REQUIRE(rounded_to_millionth(once) == once);
  }
}

TEST_CASE("a sum does not depend on order or grouping") {
  std::mt19937 random(2);
  std::uniform_real_distribution<double> masses(0.0, 500.0);
  std::vector<double> values(1000);
  for (double& value : values) value = masses(random);
  ExactSum total;
  for (const double value : values) total.add(value);
  std::shuffle(values.begin(), values.end(), random);
  ExactSum of_groups;
  for (std::size_t start = 0; start < values.size(); start += 10) {
    ExactSum group;
    for (std::size_t i = start; i < start + 10; ++i) group.add(values[i]);
    of_groups.add(group.total());
  }
  CHECK(of_groups.total() == total.total());
}

TEST_CASE("what is out of range makes the total not a number") {
  CHECK(std::isnan(rounded_to_millionth(std::numeric_limits<double>::quiet_NaN())));
  CHECK(std::isnan(rounded_to_millionth(std::numeric_limits<double>::infinity())));
  CHECK(std::isnan(rounded_to_millionth(kExactSumLimit)));
  ExactSum sum;
  sum.add(1.5e9).add(1.5e9);
  CHECK(std::isnan(sum.total()));
  CHECK(std::isnan(sum.add(-1.5e9).total()));
  // Out of range is a value too that the others would bring back.
  CHECK(std::isnan(ExactSum().add(-1.5e9).add(3.0e9).total()));
}
