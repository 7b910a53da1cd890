#include "core/dossier/parts/panel/panel_facts.h"

#include <catch2/catch.hpp>

#include "core/api/finding/roles.h"
#include "core/api/support/units.h"
#include "core/dossier/parts/panel/fire_class.h"
#include "tests/dossier/shipped_guidance.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;

namespace {

/// The pages' view of a dossier, without pages.
struct FactsOfPanel {
  test::SyntheticDossier made = test::synthetic_dossier(1, 3);
  PdfDocument pdf{test::installed_fonts()};
  Flow flow{pdf};
  std::vector<DossierVolume> volumes;

  template <typename Ask>
  auto ask(const Ask& ask) {
    const DossierContent content = made.content();
    const std::vector<std::string> silent;
    const AnnexIndex annex(made.results, [](const RecordedFinding&) { return true; });
    const Book book{pdf, flow, content, silent, annex, volumes, false};
    return ask(book);
  }
  Panel& panel() { return made.project.panels.front(); }
  PanelSummary& summary() { return made.results.panels.front(); }
  std::string fact(const std::string& name) {
    return ask([&](const Book& book) -> std::string {
      for (const auto& facts :
           {identity_facts(book.content, panel()), figure_facts(book.content, panel(), summary())}) {
        for (const Fact& fact : facts) {
          if (fact.name == name) return fact.value;
        }
      }
      return "no fact of that name";
    });
  }
  std::vector<std::string> rules() {
    return ask([&](const Book& book) { return drilling_rules(book.content, panel(), summary()); });
  }
  void state(const char* set, const char* name, std::variant<double, bool, std::string> value, const char* unit = "") {
    panel().properties.add(set, name, {std::move(value), unit, {}});
  }
};

}  // namespace

TEST_CASE("Who made a panel is what the export says, else the party of that role, else nobody") {
  FactsOfPanel facts;
  CHECK(facts.fact("made by").empty());
  Party maker;
  maker.role = "Panel maker";
  maker.organisation = "Example Works";
  maker.contact = "works@example.org";
  Party other = maker;
  other.role = "architect";
  facts.made.project.parties = {other};
  CHECK(facts.fact("made by").empty());
  facts.made.project.parties.push_back(maker);
  CHECK(facts.fact("made by") == "Example Works, works@example.org");
  facts.state("Pset_ManufacturerTypeInformation", "Manufacturer", std::string("Other Works"));
  CHECK(facts.fact("made by") == "Other Works");
}

TEST_CASE("A warranty without a first day says so") {
  FactsOfPanel facts;
  CHECK(facts.fact("warranty").empty());
  facts.state("Pset_Warranty", "WarrantyPeriod", 12.0 * units::kSecondPerYear, "s");
  CHECK(facts.fact("warranty") == "12 years, first day not stated");
  facts.state("Pset_Warranty", "WarrantyStartDate", std::string("2026-05-01"));
  facts.state("Pset_Warranty", "PointOfContact", std::string("desk@example.org"));
  CHECK(facts.fact("warranty") == "12 years from 2026-05-01, desk@example.org");
}

TEST_CASE("A batch that two properties tell alike is printed once") {
  FactsOfPanel facts;
  facts.state("Pset_ManufacturerOccurrence", "BatchReference", std::string("P3"));
  CHECK(facts.fact("production batch") == "P3");
  facts.state("Panel_Identity", "Batch", std::string("P3"));
  CHECK(facts.fact("production batch") == "P3");
  FactsOfPanel others;
  others.state("Pset_ManufacturerOccurrence", "BatchReference", std::string("P3"));
  others.state("Panel_Identity", "Batch", std::string("4"));
  CHECK(others.fact("production batch") == "4, P3");
}

TEST_CASE("What hangs on the hook is told with the gear in it") {
  FactsOfPanel facts;
  std::vector<RecordedFinding>& findings = facts.summary().findings;
  test::claim(facts.made.results.build, role::kMass, findings.at(0).check);
  test::claim(facts.made.results.build, role::kHookLoad, findings.at(1).check);
  for (std::size_t i = 0; i < 2; ++i) {
    findings[i].unit = "kg";
    findings[i].limit = {};
    findings[i].verdict = Verdict::information;
  }
  findings[0].value = 476.7;
  findings[1].value = 826.7;
  CHECK_THAT(facts.fact("on the hook"), Contains(", gear 350 kg"));
  findings[0].value = std::string("not known");
  CHECK_THAT(facts.fact("on the hook"), !Contains("gear"));
}

TEST_CASE("Two reports make no class of the whole wall") {
  const auto shown_by = [](const char* value, const char* report) {
    Finding finding;
    finding.check = "x.class";
    finding.value = std::string(value);
    finding.verdict = Verdict::pass;
    finding.basis = Basis::test_evidence;
    Input input;
    input.name = "report";
    input.value = std::string(report);
    finding.inputs.push_back(input);
    return FindingRecorder().record(finding);
  };
  const RecordedFinding separating = shown_by("EI 60", "TR-1");
  const RecordedFinding same = shown_by("R 60", "TR-1");
  const RecordedFinding other = shown_by("R 60", "TR-2");
  CHECK(FireClass{&separating, &same}.in_words() == "REI 60");
  CHECK(FireClass{&separating, &other}.in_words() == "EI 60, R 60");
}

TEST_CASE("A property is printed in its unit, and in years only where it is a time") {
  const auto text_of_number = [](double value, const char* unit) { return property_text({value, unit, {}}); };
  CHECK(text_of_number(25.0 * units::kSecondPerYear, "s") == "25 years");
  CHECK(text_of_number(4.0e7, "Pa") != "1.267 years");
  CHECK_THAT(text_of_number(4.0e7, "Pa"), Catch::Contains("Pa"));
  CHECK(text_of_number(30.0, "s") == "30 s");
  CHECK(text_of_number(0.0125, "m") == "12.5 mm");
  CHECK(text_of_number(4200.0, "N/m") == "4.2 kN/m");
  CHECK(text_of_number(2800.0, "N") == "2.8 kN");
}

TEST_CASE("A figure of a panel carries its limit, and its verdict where it is open") {
  FactsOfPanel facts;
  CHECK(facts.fact("U-value").empty());
  RecordedFinding& finding = facts.summary().findings.front();
  test::claim(facts.made.results.build, role::kThermalTransmittance, finding.check);
  finding.value = 0.186;
  finding.unit = "W/(m²·K)";
  finding.limit = 0.26;
  finding.relation = Relation::at_most;
  finding.verdict = Verdict::pass;
  CHECK(facts.fact("U-value") == "0.186 W/(m²·K) (≤ 0.260 W/(m²·K))");
  finding.verdict = Verdict::evidence_needed;
  CHECK_THAT(facts.fact("U-value"), Contains("), evidence needed"));
  finding.value = std::monostate{};
  finding.verdict = Verdict::not_assessed;
  CHECK(facts.fact("U-value") == "not assessed");
}

TEST_CASE("Before drilling: where the studs are, how deep the membrane lies, what the lining keeps") {
  FactsOfPanel facts;
  std::vector<std::string> rules = facts.rules();
  REQUIRE(rules.size() == 2);
  // Studs 45 mm wide at every 600 mm of a panel 2400 mm wide.
  CHECK_THAT(rules[0], Contains("22, 622, 1222, 1822") || Contains("23, 623, 1223, 1823"));
  CHECK_THAT(rules[1], Contains("Deeper than 15 mm"));
  test::put_role(facts.made, 0, role::kFireResistance, std::string("EI 60"), Verdict::pass);
  test::put_role(facts.made, 0, role::kBearingInFire, std::string("not required"), Verdict::information);
  rules = facts.rules();
  REQUIRE(rules.size() == 3);
  CHECK_THAT(rules[2], Contains("Fire resistance EI 60"));
  // A class that is not proved is not printed as if it were, whichever half of it is missing.
  test::put_role(facts.made, 0, role::kBearingInFire, std::string("R 30"), Verdict::fail);
  CHECK_THAT(facts.rules()[2], !Contains("EI 60") && Contains("not shown yet"));
  test::put_role(facts.made, 0, role::kBearingInFire, std::string("R 60"), Verdict::pass);
  CHECK_THAT(facts.rules()[2], Contains("Fire resistance REI 60"));
  // Two times, or one of them by a test and the other calculated, are no class of the whole.
  test::put_role(facts.made, 0, role::kBearingInFire, std::string("R 90"), Verdict::pass);
  CHECK_THAT(facts.rules()[2], Contains("Fire resistance EI 60, R 90"));
  test::put_role(facts.made, 0, role::kBearingInFire, std::string("R 60"), Verdict::pass, Basis::calculation);
  CHECK_THAT(facts.rules()[2], Contains("Fire resistance EI 60, R 60"));
  for (const Verdict open : {Verdict::fail, Verdict::evidence_needed, Verdict::not_assessed}) {
    test::put_role(facts.made, 0, role::kFireResistance, {}, open);
    CHECK_THAT(facts.rules()[2], !Contains("60") && Contains("not shown yet"));
  }

  facts.panel().parts.clear();
  facts.panel().layers.erase(facts.panel().layers.begin() + 1);  // the vapour control layer
  rules = facts.rules();
  CHECK_THAT(rules[0], Contains("not known of this panel"));
  CHECK_THAT(rules[1], Contains("No membrane lies on the inner side"));
}

TEST_CASE("Fixings are counted by type") {
  Panel panel;
  Part bracket;
  bracket.kind = PartKind::fastener;
  bracket.count = 4;
  bracket.properties.add("Panel_Fastener", "Type", {std::string("Angle bracket"), "", {}});
  Part loop;
  loop.kind = PartKind::fastener;
  loop.name = "Lifting loop";
  panel.parts = {bracket, loop, bracket, Part()};
  CHECK(fixings_in_words(panel) == std::vector<std::string>{"8 × Angle bracket", "1 × Lifting loop"});
}

TEST_CASE("Fixings that each have a place are told with it, in rows and columns or one by one") {
  Panel panel;
  const auto add = [&panel](double x_m, double z_m) {
    Part bracket = test::box_part(PartKind::fastener, "Bracket", 0, {x_m - 0.06, 0.0, z_m - 0.06},
                                  {x_m + 0.06, 0.005, z_m + 0.06});
    panel.parts.push_back(std::move(bracket));
  };
  add(0.06, 0.06);
  add(2.34, 0.06);
  add(0.06, 3.14);
  CHECK(fixings_in_words(panel) ==
        std::vector<std::string>{
            "3 × Bracket, at (mm from the left edge | above the foot) 60 | 60; 60 | 3140; 2340 | 60"});
  add(2.34, 3.14);
  CHECK(fixings_in_words(panel) ==
        std::vector<std::string>{"4 × Bracket, at 60 and 2340 mm from the left edge, 60 and 3140 mm above the foot"});
  // One that stands for several has no place of its own, and then the places of the rest would mislead.
  panel.parts.back().count = 2;
  CHECK(fixings_in_words(panel) == std::vector<std::string>{"5 × Bracket"});
}
