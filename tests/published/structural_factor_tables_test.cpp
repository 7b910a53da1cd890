// Rows of the tables against EN 1995-1-1:2004+A1:2008 tables 2.3, 3.1 and 3.2, EN 14080:2013 table 4 and EN
// 12369-1:2001 (from memory, typed here a second time), and relations between them that hold in the standards.
#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <vector>

#include "plugins/structural/basis/timber.h"
#include "tests/structural/structural_tables.h"

using namespace panel_dossier;
using panel_dossier::testing::structural_tables;

TEST_CASE("kmod of OSB/3 and particleboard P5 is that of table 3.1") {
  struct Row {
    const char* key;
    std::vector<double> values;
  };
  const std::vector<const char*> durations{"permanent", "long", "medium", "short", "instantaneous"};
  for (const Row& row : {Row{"OSB/3/1", {0.40, 0.50, 0.70, 0.90, 1.10}}, Row{"OSB/3/2", {0.30, 0.40, 0.55, 0.70, 0.90}},
                         Row{"P5/2", {0.20, 0.30, 0.45, 0.60, 0.80}}, Row{"plywood/2", {0.60, 0.70, 0.80, 0.90, 1.10}},
                         Row{"solid/2", {0.60, 0.70, 0.80, 0.90, 1.10}}}) {
    for (std::size_t i = 0; i < durations.size(); ++i) {
      INFO(row.key << ", " << durations[i]);
      CHECK(structural_tables().modification_factors.number(row.key, durations[i])->value == row.values[i]);
    }
  }
}

TEST_CASE("kmod falls with duration and moisture, kdef rises with moisture") {
  const auto& kmod = structural_tables().modification_factors;
  const auto& kdef = structural_tables().deformation_factors;
  for (const char* family : {"solid", "glulam", "OSB/3", "OSB/4", "P5", "plywood"}) {
    const std::string dry = std::string(family) + "/1";
    const std::string humid = std::string(family) + "/2";
    INFO(family);
    CHECK(kmod.number(dry, "permanent")->value < kmod.number(dry, "short")->value);
    CHECK(kmod.number(humid, "short")->value <= kmod.number(dry, "short")->value);
    CHECK(kdef.number(humid, "kdef")->value > kdef.number(dry, "kdef")->value);
  }
  CHECK(kdef.number("OSB/3/2", "kdef")->value == 2.25);
  CHECK_FALSE(kmod.has("OSB/2/2"));  // OSB/2 and P4 are for dry use
  CHECK_FALSE(kmod.has("P4/2"));
}

TEST_CASE("Partial factors are the recommended ones of table 2.3") {
  const auto factor = [](const char* column) {
    return structural_tables().national_annex.number("recommended", column)->value;
  };
  CHECK(factor("gamma_m_solid") == 1.30);
  CHECK(factor("gamma_m_glulam") == 1.25);
  CHECK(factor("gamma_m_OSB/3") == 1.20);
  CHECK(factor("gamma_m_P5") == 1.30);
  CHECK(factor("gamma_m_connection") == 1.30);
}

TEST_CASE("C45 and C50 continue the softwood classes of EN 338:2016 table 1") {
  const auto c50 = structural::timber_class(structural_tables().strength_classes, "C50");
  REQUIRE(c50.has_value());
  CHECK(c50->bending_pa.value == 50e6);
  CHECK(c50->modulus_mean_pa.value == 16e9);
  CHECK(c50->density_kg_per_m3.value == 430.0);
  CHECK(structural::timber_class(structural_tables().strength_classes, "C 45")->shear_pa.value == 4e6);
}

TEST_CASE("Combined glulam of EN 14080:2013 is never stronger than homogeneous glulam of its class") {
  const auto& table = structural_tables().strength_classes;
  for (const char* grade : {"GL20", "GL22", "GL24", "GL26", "GL28", "GL30", "GL32"}) {
    INFO(grade);
    const auto value = [&](const char* suffix, const char* column) {
      return table.number(std::string(grade) + suffix, column)->value;
    };
    CHECK(value("c", "bending") == value("h", "bending"));
    CHECK(value("c", "tension_parallel") < value("h", "tension_parallel"));
    CHECK(value("c", "compression_parallel") < value("h", "compression_parallel"));
  }
}

TEST_CASE("Panels of EN 12369-1 lose strength with thickness, and ranges of thickness meet") {
  const auto& table = structural_tables().panel_products;
  for (const char* product : {"OSB/3", "P5"}) {
    for (const auto& [thin, thick] : {std::pair("/a", "/b"), std::pair("/b", "/c")}) {
      const std::string first = std::string(product) + thin;
      const std::string second = std::string(product) + thick;
      INFO(first << ", " << second);
      CHECK(table.number(first, "thickness_to")->value == table.number(second, "thickness_over")->value);
      CHECK(table.number(second, "bending_parallel")->value < table.number(first, "bending_parallel")->value);
      CHECK(table.number(second, "panel_shear")->value <= table.number(first, "panel_shear")->value);
    }
  }
  CHECK(table.number("OSB/3/b", "panel_shear")->value == 6.8);
}
