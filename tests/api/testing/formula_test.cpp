// The printed formulas of a finding: which are let through, and what is said of the others.
#include "core/api/testing/formula.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// A finding with inputs in mixed units and a table of three parts, of which one has no height.
Finding measured() {
  Finding finding;
  finding.check = "trial.check";
  finding.inputs = {{"width", "b", 45.0, "mm", {}},
                    {"depth", "h", 0.145, "m", {}},
                    {"force", "F", 2.0, "kN", {}},
                    {"angle", "α", 30.0, "°", {}},
                    {"product stage", "A1–A3", 3.0, "kg", {}},
                    {"biogenic", "A1–A3,bio", -1.0, "kg", {}},
                    {"upper limit", "R'", 2.0, "m²·K/W", {}},
                    {"share", "p", 25.0, "%", {}},
                    {"class", "c", std::string("C24"), "", {}},
                    {"mass of one", "q", 1.0, "kg", {}},
                    {"mass of another", "q", 2.0, "kg", {}},
                    {"mass", "q_1", 2.0, "kg", {}},
                    {"first length", "l", 1.0, "m", {}},
                    {"first length again", "l", 1.0, "m", {}}};
  finding.tables = {{"parts",
                     {{"part", ""}, {"m_i", "kg"}, {"z_i", "mm"}},
                     {{"a", 2.0, 1000.0}, {"b", 4.0, 2500.0}, {"c", 9.0, {}}}}};
  return finding;
}

/// What is wrong with one step of that finding.
std::vector<std::string> faults_of(std::string symbol, Value value, std::string unit, std::string formula) {
  Finding finding = measured();
  finding.steps = {{"step", std::move(symbol), std::move(value), std::move(unit), std::move(formula)}};
  return formula_faults(finding);
}

std::string fault_of(std::string symbol, Value value, std::string unit, const std::string& formula) {
  const std::vector<std::string> faults = faults_of(std::move(symbol), std::move(value), std::move(unit), formula);
  REQUIRE(faults.size() == 1);
  const std::string head = "trial.check: formula '" + formula + "': ";
  REQUIRE(faults.front().substr(0, head.size()) == head);
  return faults.front().substr(head.size());
}

}  // namespace

TEST_CASE("A formula that gives the number of its step is no fault") {
  const auto holds = [](std::string symbol, double value, std::string unit, std::string formula) {
    INFO(formula);
    CHECK(faults_of(std::move(symbol), value, std::move(unit), formula) == std::vector<std::string>{});
  };
  // In SI, from millimetres and metres.
  holds("A", 0.045 * 0.145, "m²", "A = b · h");
  holds("A", 45.0 * 145.0, "mm²", "A = b × h");
  holds("I", 45.0 * std::pow(145.0, 3) / 12.0, "mm⁴", "I = b · h³ / 12");
  holds("σ", 2000.0 / (45.0 * 145.0), "N/mm²", "σ = F / (b · h)");
  holds("d", std::hypot(0.045, 0.145), "m", "d = √(b² + h^2)");
  holds("x", 0.5, "kN", "x = p · F");
  // As printed, where the units do not work out: the numbers of an empirical formula, a constant without its unit.
  holds("k", std::pow(150.0 / 45.0, 0.2), "", "k = (150 / b)^0.2");
  holds("G", 0.0196133, "kN", "G = q_1 · 9.80665 / 1000");
  holds("t", 20.0, "min", "t = b / 9 + 15");
  holds("f", std::pow(45.0, -0.3), "N/mm²", "f = b^−0.3");
  holds("y", -45.0 * 45.0, "", "y = −b²");
  holds("y", 7.0, "", "y = 2 + 3 × 4 - 7");
  holds("y", 2.0, "", "y = 8 / 2 / 2");
  // Symbols.
  holds("C", 4.0, "kg", "C = A1–A3 − A1–A3,bio");
  holds("C", 1.0, "kg", "C = |A1–A3,bio|");
  holds("R''", 0.5, "", "R'' = 1 / R'");
  holds("y", 2.0 * 3.141592653589793, "m", "y = 2 · π · l");
  // Functions; an angle is an angle in either reading.
  holds("H", 2.0 * std::tan(0.5235987755982988), "kN", "H = F · tan(α)");
  holds("y", std::exp(-1.0) + std::log(3.0), "kg", "y = exp(A1–A3,bio) + ln(A1–A3)");
  holds("y", 0.045, "m", "y = min(b; h; 2 · l)");
  // Columns, row by row; the row without a height is left out of what asks for the height.
  holds("m", 15.0, "kg", "m = sum(m_i)");
  holds("z", 12.0 / 15.0, "m", "z = sum(m_i · z_i) / sum(m_i)");
  holds("z_max", 2.5, "m", "z_max = max(z_i)");
  holds("y", 2.5, "m", "y = max(l; z_i)");
  holds("y", 1.045, "m", "y = sum(min(z_i; b + l) - min(z_i; l)) + l");
  // A result that is rounded to the millionth of its unit.
  holds("k", 0.333333, "", "k = 1 / 3");
}

TEST_CASE("Symbols hold every letter and digit from the first to the last") {
  for (const std::string symbol : {"A", "Z", "a", "z", "x0", "x9", "x_Z,9"}) {
    INFO(symbol);
    Finding finding = measured();
    finding.steps = {{"first", symbol, 7.0, "", ""}, {"second", "Y", 8.0, "", "Y = " + symbol + " + 1"}};
    CHECK(formula_faults(finding).empty());
  }
}

TEST_CASE("A formula that gives another number is a fault that tells both") {
  CHECK(fault_of("A", 0.0066, "m²", "A = b · h") == "gives 0.006525 in SI and 6.525 as printed, the step says 0.0066");
  CHECK(fault_of("k", 0.3333331, "", "k = 1 / 3").substr(0, 26) == "gives 0.333333333333 in SI");
  // One part in a hundred millions off.
  CHECK(fault_of("k", (1.0 / 3.0) * (1.0 + 1.0e-8), "", "k = 1 / 3").substr(0, 6) == "gives ");
  CHECK(fault_of("y", 1.0, "", "y = √(0 − 1)").substr(0, 6) == "gives ");
  CHECK(fault_of("y", 1.0, "", "y = 1 / (b − b)").substr(0, 6) == "gives ");
  CHECK(fault_of("m", 6.0, "kg", "m = sum(m_i)").substr(0, 6) == "gives ");
}

TEST_CASE("A formula is read with its units where they work out, else as printed") {
  const std::string with_units = "; its units work out, so that it is read with them";
  const std::string as_printed = "; its units do not work out, so that it is read as printed";
  CHECK(fault_of("G", 2000.0, "N", "G = F · 1000") ==
        "gives 2000000 in SI and 2000 as printed, the step says 2000" + with_units);
  CHECK(fault_of("P", 25.0, "%", "P = p · 100") == "gives 2500 in SI and 2500 as printed, the step says 25");
  CHECK(fault_of("G", 0.0196133, "kN", "G = q_1 · 9.80665") ==
        "gives 0.0196133 in SI and 19.6133 as printed, the step says 0.0196133" + as_printed);
  CHECK(fault_of("k", std::pow(150.0 / 45.0, 0.2), "", "k = (0.15 / b)^0.2").ends_with(as_printed));
  // A term of another unit, a logarithm of a length, a power that is no number.
  CHECK(fault_of("y", 0.190, "m", "y = b + h + F / F").substr(0, 6) == "gives ");
  CHECK(fault_of("y", std::log(0.045), "", "y = ln(b)").ends_with(as_printed));
  CHECK(fault_of("y", 0.045, "m", "y = b^(F / F)").ends_with(as_printed));
  // A 0 stands beside any unit; a unit that is none of measure says nothing.
  CHECK(faults_of("y", 45.0, "mm", "y = max(0; b)").empty());
  CHECK(faults_of("y", 0.045, "pieces", "y = b").empty());
  CHECK(faults_of("y", 45.0, "pieces", "y = b").empty());
}

TEST_CASE("A formula that is no expression of the finding's own symbols is a fault") {
  const auto fault = [](const std::string& formula) { return fault_of("y", 1.0, "", formula); };
  CHECK(fault("y = E · b") == "'E' is no symbol of the finding");
  CHECK(fault("y = A1–A3,b") == "'A1–A3,b' is no symbol of the finding");
  CHECK(fault("y = R · b") == "'R' is no symbol of the finding");
  CHECK(fault("y = y") == "'y' is no symbol of the finding");
  CHECK(fault("y = Σ m_i") == "'Σ' is no symbol of the finding");
  CHECK(fault("y = q · b") == "'q' has 2 meanings");
  CHECK(fault("y = c") == "'c' is no number");
  CHECK(fault("y = m_i") == "the column 'm_i' stands outside of sum(), min() and max()");
  CHECK(fault("y = sum(part)") == "'part' is no number");
  CHECK(fault("y = sum(b)") == "sum() names no column");
}

TEST_CASE("Words, conditions and lists are no formulas") {
  const auto fault = [](const std::string& formula) { return fault_of("y", 1.0, "", formula); };
  CHECK(fault("the larger of both") == "is not 'symbol = expression'");
  CHECK(fault("b · h") == "is not 'symbol = expression'");
  CHECK(fault("z = b") == "is of 'z', the step's symbol is 'y'");
  CHECK(fault("1 ≤ y = b") == "is of '1 ≤ y', the step's symbol is 'y'");
  CHECK(fault("y = b = h") == "has more than one equals sign");
  CHECK(fault("y = b mm") == "'mm' is no part of an expression");
  CHECK(fault("y = 2 b") == "'b' is no part of an expression");
  CHECK(fault("y = b ≤ 1") == "'≤ 1' is no part of an expression");
  CHECK(fault("y = (b") == "')' is missing before ''");
  CHECK(fault("y = b +") == "the expression ends too early");
  CHECK(fault("y = 1.2.3") == "'1.2.3' is no number");
  CHECK(fault("y = ⌈b⌉") == "'⌈b⌉' is no part of an expression");
  CHECK(fault_of("q_p(z)", 45.0, "mm", "q_p(z) = b") ==
        "has a symbol of other than letters, digits, _ , primes and en dashes");
  CHECK(fault_of("y", std::string("C24"), "", "y = b") == "stands beside a step that is no number");
}

TEST_CASE("A symbol keeps its one meaning through the finding") {
  Finding finding = measured();
  finding.steps = {{"half", "t", 22.5, "mm", "t = b / 2"}, {"third", "t", 15.0, "mm", "t = b / 3"}};
  CHECK(formula_faults(finding) ==
        std::vector<std::string>{"trial.check: formula 't = b / 3': is of 't', which has another meaning further up"});
  // Said again with the same number, it means the same.
  finding.steps = {{"half", "t", 22.5, "mm", "t = b / 2"}, {"half", "t", 22.5, "mm", "t = b / 2"}};
  CHECK(formula_faults(finding).empty());
  // Steps name what stands before them.
  finding.steps = {{"double", "u", 45.0, "mm", "u = 2 · t"}, {"half", "t", 22.5, "mm", "t = b / 2"}};
  CHECK(formula_faults(finding) ==
        std::vector<std::string>{"trial.check: formula 'u = 2 · t': 't' is no symbol of the finding"});
}

TEST_CASE("A column is found in one table only, and is no symbol as well") {
  Finding finding = measured();
  finding.tables.push_back(finding.tables.front());
  finding.steps = {{"mass", "m", 15.0, "kg", "m = sum(m_i)"}};
  CHECK(formula_faults(finding) ==
        std::vector<std::string>{"trial.check: formula 'm = sum(m_i)': several tables have the column 'm_i'"});
  finding.tables.pop_back();
  finding.tables.front().columns[1].name = "b";
  finding.steps.front().formula = "m = sum(b)";
  CHECK(formula_faults(finding) ==
        std::vector<std::string>{"trial.check: formula 'm = sum(b)': 'b' is both a column and a symbol"});
}

TEST_CASE("Printed units are read into SI") {
  const auto factor = [](const char* unit) { return Approx(unit_factor(unit)).epsilon(1e-15); };
  CHECK(factor("N/mm²") == 1.0e6);
  CHECK(factor("mm⁴") == 1.0e-12);
  CHECK(factor("W/(m²·K)") == 1.0);
  CHECK(factor("kJ/(m²·K)") == 1000.0);
  CHECK(factor("m³/(h·m²)") == 1.0 / 3600.0);
  CHECK(factor("kg CO2e/(t·km)") == 1.0e-6);
  CHECK(factor("%") == 0.01);
  CHECK(factor("°") == 3.14159265358979323846 / 180.0);
  CHECK(factor("km/min") == 1000.0 / 60.0);
  CHECK(factor("kNm") == 1000.0);
  CHECK(factor("Nmm/MPa") == 1.0e-9);
  CHECK(factor("g/(kPa·d)") == 1.0e-6 / 86400.0);
  CHECK(factor("kW·h") == 3.6e6);
  CHECK(factor("days") == 86400.0);
  CHECK(factor("per m²") == 1.0);
  CHECK(factor("GBP/m²") == 1.0);
  CHECK(factor("°C") == 1.0);
  CHECK(factor("") == 1.0);
}
