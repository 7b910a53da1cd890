#include "core/api/finding/finding_builder.h"

#include <catch2/catch.hpp>
#include <limits>
#include <utility>

#include "core/api/finding/panel_values.h"

using namespace panel_dossier;

namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr double kInfinity = std::numeric_limits<double>::infinity();

CheckDeclaration declared(std::string id, std::string title, std::string clause) {
  CheckDeclaration check;
  check.id = std::move(id);
  check.title = std::move(title);
  check.clause = std::move(clause);
  return check;
}

FindingBuilder builder() {
  return FindingBuilder(declared("thermal.u_value", "Thermal transmittance", "EN ISO 6946:2017, 6.7.2"), "panel id");
}

Sourced<double> at_line(double value, std::uint32_t line) {
  Sourced<double> sourced{value, {}};
  sourced.origin.entity = "IfcMaterial";
  sourced.origin.line = line;
  return sourced;
}

}  // namespace

TEST_CASE("a finding keeps what it was opened with") {
  const Finding finding = builder().basis(Basis::declared).decimals(3).note("n").inform(1.0, "m");
  CHECK(finding.check == "thermal.u_value");
  CHECK(finding.title == "Thermal transmittance");
  CHECK(finding.panel == "panel id");
  CHECK(finding.clause == "EN ISO 6946:2017, 6.7.2");
  CHECK(finding.basis == Basis::declared);
  CHECK(finding.decimals == 3);
  CHECK(finding.notes == std::vector<std::string>{"n"});
}

TEST_CASE("a given input is returned and recorded with its origin") {
  FindingBuilder b = builder();
  CHECK(b.number("conductivity", "λ", "W/(m·K)", at_line(0.035, 12), "no λ") == 0.035);
  CHECK_FALSE(b.incomplete());
  const Finding finding = b.inform(1.0, "m");
  REQUIRE(finding.inputs.size() == 1);
  CHECK(finding.inputs[0].name == "conductivity");
  CHECK(finding.inputs[0].symbol == "λ");
  CHECK(std::get<double>(finding.inputs[0].value) == 0.035);
  CHECK(finding.inputs[0].unit == "W/(m·K)");
  CHECK(finding.inputs[0].origin.line == 12);
}

TEST_CASE("an absent input is none and its message becomes the reason") {
  FindingBuilder b = builder();
  CHECK_FALSE(b.number("conductivity", "λ", "W/(m·K)", std::nullopt, "Pset_MaterialThermal.ThermalConductivity"));
  CHECK(b.incomplete());
  const Finding finding = b.not_assessed();
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason == "Pset_MaterialThermal.ThermalConductivity");
  CHECK(finding.inputs.empty());
}

TEST_CASE("an input that is not finite is refused by name and place") {
  FindingBuilder b = builder();
  CHECK_FALSE(b.number("conductivity", "λ", "W/(m·K)", at_line(kNaN, 7), "no λ"));
  CHECK_FALSE(b.number("density", "ρ", "kg/m³", at_line(kInfinity, 8), "no ρ"));
  CHECK(b.not_assessed().reason ==
        "conductivity is not a finite number (IfcMaterial, line 7); density is not a finite number (IfcMaterial, line "
        "8)");
}

TEST_CASE("positive refuses zero and negative values") {
  FindingBuilder b = builder();
  CHECK_FALSE(b.positive("density", "ρ", "kg/m³", at_line(0.0, 7), "no ρ"));
  CHECK_FALSE(b.positive("width", "b", "m", at_line(-1.0, 9), "no b"));
  CHECK(b.positive("height", "h", "m", at_line(1.0, 10), "no h") == 1.0);
  CHECK(b.not_assessed().reason ==
        "density must be greater than zero (IfcMaterial, line 7); width must be greater than zero (IfcMaterial, line "
        "9)");
}

TEST_CASE("an empty text counts as absent and a logical is recorded in words") {
  FindingBuilder b = builder();
  CHECK_FALSE(b.text("rating", Sourced<std::string>{"", {}}, "no rating"));
  CHECK(b.logical("load bearing", Sourced<bool>{false, {}}, "no answer") == false);
  CHECK_FALSE(b.logical("external", std::nullopt, "no IsExternal"));
  const Finding finding = b.not_assessed("stopped");
  CHECK(finding.reason == "stopped; no rating; no IsExternal");
  REQUIRE(finding.inputs.size() == 1);
  CHECK(std::get<std::string>(finding.inputs[0].value) == "no");
}

TEST_CASE("at most passes at its limit and fails above it") {
  const Finding at_limit = builder().judge(0.26, "W/(m²·K)", Relation::at_most, 0.26, "too high");
  CHECK(at_limit.verdict == Verdict::pass);
  CHECK(at_limit.utilisation == 1.0);
  CHECK(at_limit.reason.empty());
  const Finding above = builder().judge(0.39, "W/(m²·K)", Relation::at_most, 0.26, "too high");
  CHECK(above.verdict == Verdict::fail);
  CHECK(*above.utilisation == Approx(1.5));
  CHECK(above.reason == "too high");
}

TEST_CASE("at least passes at its limit and fails below it") {
  CHECK(builder().judge(60.0, "min", Relation::at_least, 60.0, "too short").verdict == Verdict::pass);
  const Finding below = builder().judge(30.0, "min", Relation::at_least, 60.0, "too short");
  CHECK(below.verdict == Verdict::fail);
  CHECK(below.utilisation == 2.0);
}

TEST_CASE("the unrounded value is judged") {
  CHECK(builder().decimals(2).judge(0.2601, "", Relation::at_most, 0.26, "too high").verdict == Verdict::fail);
}

TEST_CASE("utilisation is absent where the ratio means nothing") {
  CHECK_FALSE(builder().judge(1.0, "", Relation::at_most, 0.0, "r").utilisation);
  CHECK_FALSE(builder().judge(-1.0, "", Relation::at_most, 2.0, "r").utilisation);
  CHECK_FALSE(builder().judge(0.0, "", Relation::at_least, 1.0, "r").utilisation);
  CHECK(builder().judge(0.0, "", Relation::at_most, 2.0, "r").utilisation == 0.0);
}

TEST_CASE("equals judges exactly and without utilisation") {
  CHECK(builder().judge(2.0, "", Relation::equals, 2.0, "r").verdict == Verdict::pass);
  const Finding other = builder().judge(3.0, "", Relation::equals, 2.0, "r");
  CHECK(other.verdict == Verdict::fail);
  CHECK_FALSE(other.utilisation);
}

TEST_CASE("without a relation nothing passes") {
  const Finding finding = builder().judge(3.0, "m", Relation::none, 2.0, "r");
  CHECK(finding.verdict == Verdict::information);
  CHECK(finding.reason.empty());
}

TEST_CASE("a result or limit that is not finite is never judged") {
  for (const double bad : {kNaN, kInfinity, -kInfinity}) {
    CHECK(builder().judge(bad, "", Relation::at_most, 1.0, "r").verdict == Verdict::not_assessed);
    CHECK(builder().judge(1.0, "", Relation::at_most, bad, "r").verdict == Verdict::not_assessed);
    const Finding informed = builder().inform(bad, "m");
    CHECK(informed.verdict == Verdict::not_assessed);
    CHECK(informed.reason == "the result is not a finite number");
    CHECK(std::holds_alternative<std::monostate>(informed.value));
  }
}

TEST_CASE("an incomplete finding never closes with a value") {
  const auto incomplete = [] {
    FindingBuilder b = builder();
    b.missing("the density");
    return b;
  };
  for (const Finding& finding : {incomplete().judge(1.0, "", Relation::at_most, 2.0, "r"),
                                 incomplete().inform(1.0, "m"), incomplete().inform_text("REI 60"),
                                 incomplete().judge_class("REI 60", Relation::at_least, "REI 30", Verdict::pass, "")}) {
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason == "the density");
    CHECK(std::holds_alternative<std::monostate>(finding.value));
  }
}

TEST_CASE("needed evidence is named before what is missing") {
  FindingBuilder b = builder();
  b.missing("Panel_FireEvidence.MaxHeight");
  const Finding finding = b.needs_evidence("no test report");
  CHECK(finding.verdict == Verdict::evidence_needed);
  CHECK(finding.reason == "no test report; Panel_FireEvidence.MaxHeight");
}

TEST_CASE("a step that is not finite is named and keeps the finding from closing") {
  FindingBuilder b = builder();
  b.step("area", "A", 2.0, "m²", "A = b·h").step("resistance", "R", kNaN, "m²·K/W");
  const Finding finding = b.inform(1.0, "m");
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason == "the intermediate result 'resistance' is not a finite number");
  REQUIRE(finding.steps.size() == 1);
  CHECK(finding.steps[0].formula == "A = b·h");
}

TEST_CASE("a class carries the caller's verdict, and a reason only when it needs one") {
  const Finding pass = builder().judge_class("EI 60", Relation::at_least, "EI 30", Verdict::pass, "unused");
  CHECK(std::get<std::string>(pass.value) == "EI 60");
  CHECK(std::get<std::string>(pass.limit) == "EI 30");
  CHECK(pass.reason.empty());
  CHECK(builder().judge_class("E", Relation::at_least, "B", Verdict::fail, "lower").reason == "lower");
}

TEST_CASE("tables, series, drawings and steps in words are carried along") {
  const Finding finding = builder()
                              .step_text("class", "C24")
                              .table({"t", {{"a", ""}}, {{1.0}}})
                              .series({"s", "x", "", "y", "", {}})
                              .drawing({"d", {}, {}, {}, {}})
                              .inform_text("done");
  CHECK(finding.verdict == Verdict::information);
  CHECK(std::get<std::string>(finding.steps.at(0).value) == "C24");
  CHECK(finding.tables.at(0).title == "t");
  CHECK(finding.series.at(0).title == "s");
  CHECK(finding.drawings.at(0).title == "d");
}

TEST_CASE("a result is asked for by id and unit, and an absent one is an error that names it") {
  Finding finding = FindingBuilder(declared("sound.centre", "Centre", "common practice"), "0Panel")
                        .value("from_left_edge", 1.25, "m")
                        .value_text("batch", "4")
                        .inform(1.0, "m");
  CHECK(value_of(finding, "from_left_edge", "m") == 1.25);
  CHECK(text_of(finding, "batch") == "4");
  CHECK(find_value(finding, "from_left_edge", "m") == 1.25);
  CHECK_FALSE(find_value(finding, "from_foot", "m").has_value());
  CHECK_THROWS_WITH(value_of(finding, "from_foot", "m"),
                    "finding 'sound.centre' of panel '0Panel' has no number 'from_foot' in m");
  CHECK_THROWS_WITH(find_value(finding, "from_left_edge", "mm"),
                    "finding 'sound.centre' of panel '0Panel' has 'from_left_edge' in 'm', asked for in 'mm'");
  CHECK_THROWS_WITH(value_of(finding, "batch", ""),
                    "finding 'sound.centre' of panel '0Panel' has 'batch' as text, not as a number");
  finding.panel.clear();
  CHECK_THROWS_WITH(text_of(finding, "from_left_edge"),
                    "finding 'sound.centre' of the project has no text 'from_left_edge'");
}

TEST_CASE("a value id stands once, and a value that is not finite is missing") {
  FindingBuilder twice(declared("sound.centre", "Centre", "common practice"), "");
  twice.value("a", 1.0, "m");
  CHECK_THROWS_WITH(twice.value("a", 2.0, "m"), "sound.centre gives the value 'a' twice");
  FindingBuilder infinite(declared("sound.centre", "Centre", "common practice"), "");
  infinite.value("a", std::numeric_limits<double>::infinity(), "m");
  const Finding finding = infinite.inform(1.0, "m");
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason == "the result 'a' is not a finite number");
  CHECK(finding.values.empty());
}

TEST_CASE("title and clause come from the declaration, the project's own where it has one") {
  CheckDeclaration check;
  check.id = "sound.area";
  check.title = "Area";
  check.project_title = "Area of all panels";
  check.clause = "EN 1:2020, 2";
  check.other_clauses = {"EN 1:2020, 3"};
  CHECK(FindingBuilder(check, "0Panel").inform(1.0, "m²").title == "Area");
  const Finding total = FindingBuilder(check, "").clause("EN 1:2020, 3").inform(1.0, "m²");
  CHECK(total.title == "Area of all panels");
  CHECK(total.clause == "EN 1:2020, 3");
  CHECK(total.check == "sound.area");
}

TEST_CASE("a table is asked for by its id, never by its title") {
  Finding finding;
  finding.tables = {{"Pieces", {}, {}, ""}, {"Other", {}, {}, "pieces"}};
  REQUIRE(find_table(finding, "pieces") != nullptr);
  CHECK(find_table(finding, "pieces")->title == "Other");
  CHECK(find_table(finding, "Pieces") == nullptr);
}
