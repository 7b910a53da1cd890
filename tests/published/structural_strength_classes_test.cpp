// EN 338:2016 table 1 derives its columns from fm,k, E0,mean and ρk by the relations of EN 384:2016 (both from memory).
// Tolerances are half of the step to which the table rounds each column.
#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <string>

#include "core/api/support/data_table.h"

using panel_dossier::DataTable;

namespace {

DataTable strength_classes() {
  return DataTable(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins/structural/data/strength_classes.csv");
}

template <typename Check>
void for_each_softwood(const Check& check) {
  const DataTable table = strength_classes();
  int count = 0;
  for (const std::string& key : table.keys()) {
    if (key.front() != 'C') continue;
    ++count;
    INFO(key);
    check([&](const char* column) { return table.number(key, column)->value; });
  }
  CHECK(count == 12);
}

}  // namespace

TEST_CASE("Softwood strengths follow the relations of EN 384") {
  for_each_softwood([](const auto& value) {
    CHECK(value("tension_parallel") == Approx(-3.07 + 0.73 * value("bending")).margin(0.25));
    CHECK(value("compression_parallel") == Approx(4.3 * std::sqrt(value("bending"))).margin(0.5));
    CHECK(value("shear") == Approx(std::min(4.0, 1.6 + 0.1 * value("bending"))).margin(0.05));
    CHECK(value("compression_perpendicular") == Approx(0.007 * value("density_characteristic")).margin(0.05));
  });
}

TEST_CASE("Softwood moduli follow the relations of EN 384") {
  for_each_softwood([](const auto& value) {
    CHECK(value("modulus_fifth") == Approx(0.67 * value("modulus_mean")).margin(50.0 + 1e-9));
    CHECK(value("shear_modulus_mean") == Approx(value("modulus_mean") / 16.0).margin(5.0 + 1e-9));
  });
}

TEST_CASE("Homogeneous glulam follows the relations of EN 14080 table 5") {
  // ft,0,g,k = 0.8·fm,g,k, fc,0,g,k = fm,g,k, E0,g,05 = 5/6·E0,g,mean (EN 14080:2013 5.1.5 and table 5, from memory);
  // strengths are rounded to 0.1 N/mm² (half: 0.05), moduli to 100 N/mm² (half: 50).
  const DataTable table = strength_classes();
  int count = 0;
  for (const std::string& key : table.keys()) {
    if (!key.starts_with("GL") || key.back() != 'h') continue;
    ++count;
    INFO(key);
    const auto value = [&](const char* column) { return table.number(key, column)->value; };
    CHECK(value("tension_parallel") == Approx(0.8 * value("bending")).margin(0.1));
    CHECK(value("compression_parallel") == value("bending"));
    CHECK(value("modulus_fifth") == Approx(value("modulus_mean") * 5.0 / 6.0).margin(50.0));
  }
  CHECK(count == 7);
}
