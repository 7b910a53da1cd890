#include "core/dossier/layout/number_format.h"

#include <catch2/catch.hpp>
#include <limits>

using namespace panel_dossier;

TEST_CASE("fixed decimals round and use the minus sign of print") {
  CHECK(format_fixed(0.1849, 3) == "0.185");
  CHECK(format_fixed(-3.0, 1) == "\u22123.0");
  CHECK(format_fixed(1234567.0, 0) == "1234567");
}

TEST_CASE("a value that rounds to zero has no sign") {
  CHECK(format_fixed(-0.0004, 2) == "0.00");
}

TEST_CASE("values that are not finite say so") {
  CHECK(format_fixed(std::numeric_limits<double>::quiet_NaN(), 2) == "not a number");
  CHECK(format_significant(std::numeric_limits<double>::infinity()) == "not a number");
}

TEST_CASE("four significant digits without trailing zeros") {
  CHECK(format_significant(0.035) == "0.035");
  CHECK(format_significant(5.5714285) == "5.571");
  CHECK(format_significant(12000.0) == "12000");
  CHECK(format_significant(0.0) == "0");
  CHECK(format_significant(-0.25) == "\u22120.25");
}

TEST_CASE("very small and very large values use powers of ten") {
  CHECK(format_significant(2.0e-10) == "2 × 10⁻¹⁰");
  CHECK(format_significant(1.23456e9) == "1.235 × 10⁹");
  CHECK(format_significant(1e-4) == "0.0001");
  CHECK(format_significant(0.99e-4) == "9.9 × 10⁻⁵");
  CHECK(format_significant(1e7) == "1 × 10⁷");
  CHECK(format_significant(-9999000.0) == "\u22129999000");
}

TEST_CASE("millimetres are whole where the length is") {
  CHECK(format_millimetres(2.4) == "2400");
  CHECK(format_millimetres(0.0125) == "12.5");
}

TEST_CASE("units use the symbols of print") {
  CHECK(format_unit("kgCO2e/m2") == "kgCO₂e/m²");
  CHECK(format_unit("m3") == "m³");
  CHECK(format_unit("W/(m²·K)") == "W/(m²·K)");
  CHECK(format_unit("1").empty());
}

TEST_CASE("a limit stands behind the sign of its relation") {
  RecordedFinding finding = FindingRecorder().record({});
  finding.unit = "W/(m²·K)";
  CHECK(format_limit(finding).empty());
  finding.limit = 0.26;
  finding.relation = Relation::at_most;
  CHECK(format_limit(finding) == "≤ 0.26 W/(m²·K)");
  finding.limit = std::string("EI 60");
  finding.unit = "";
  finding.relation = Relation::at_least;
  CHECK(format_limit(finding) == "≥ EI 60");
}
