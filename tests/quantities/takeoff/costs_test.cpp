// Costs of panels and of the project at given rates.
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include "core/api/support/exact_sum.h"
#include "plugins/quantities/checks.h"
#include "tests/quantities/sound_project.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

Settings priced(const std::string& framing_unit = "m", double framing_rate = 3.0) {
  Settings result;
  add_rate(result, 0, "softwood", framing_unit, framing_rate);
  add_rate(result, 1, "particle board", "m2", 8.0);
  add_rate(result, 2, "steel", "piece", 0.05);
  return result;
}

double cost(const Project& project, const Settings& settings) {
  return std::get<double>(costs(project.panels[0], project, settings).value);
}

std::vector<PanelFindings> cost_of_all(const Project& project, const Settings& settings) {
  std::vector<PanelFindings> all;
  for (const Panel& panel : project.panels) all.push_back({&panel, {costs(panel, project, settings)}});
  return all;
}

}  // namespace

TEST_CASE("a panel costs its net amounts times their rates, in every unit") {
  const Project project = project_of({cassette("P1")});
  const double length_m = 5 * 2.31 + 2 * 2.4;
  const double rest = 8.0 * 5.76 + 0.05 * 96;
  // Each of the products is rounded to a millionth, and lengths are whole micrometres: a few millionths in all.
  CHECK(cost(project, priced("m")) == Approx(3.0 * length_m + rest).margin(1e-5).epsilon(0));
  // The volume of 16.35 m is rounded to a millionth of a m³.
  CHECK(cost(project, priced("m3", 300.0)) == Approx(300.0 * length_m * 0.045 * 0.145 + rest).margin(5e-3).epsilon(0));
  CHECK(cost(project, priced("kg")) == Approx(3.0 * length_m * 0.045 * 0.145 * 420 + rest).margin(5e-5).epsilon(0));
  CHECK(cost(project, priced("piece")) == Approx(3.0 * 7 + rest).margin(1e-5).epsilon(0));
  const Finding found = costs(project.panels[0], project, priced());
  CHECK(found.verdict == Verdict::information);
  CHECK(found.unit == "GBP");
  REQUIRE(found.inputs.size() == 3);
  CHECK(found.inputs[0].origin.key == "quantities.rates.1.rate");
}

TEST_CASE("a rate for another unit than it is meant for is not used") {
  const Project project = project_of({cassette("P1")});
  const Finding cheap = costs(project.panels[0], project, priced("m3"));
  CHECK(cheap.verdict == Verdict::not_assessed);
  CHECK(cheap.reason.find("not priced: 'softwood' would cost 0.007 GBP a kg by its rate of 3 for one m³") == 0);
  CHECK(cheap.reason.find("outside of the usual 0.03 to 30: correct rate or unit") != std::string::npos);
  CHECK(costs(project.panels[0], project, priced("m", 300.0)).verdict == Verdict::not_assessed);
  // Of other currencies nobody knows what a kilogram costs.
  Settings other;
  add_rate(other, 0, "softwood", "m3", 3.0, "XTS");
  add_rate(other, 1, "particle board", "m2", 8.0, "XTS");
  add_rate(other, 2, "steel", "piece", 0.05, "XTS");
  CHECK(costs(project.panels[0], project, other).verdict == Verdict::information);
}

TEST_CASE("a kilogram costs from 0.03 to 30, and up to 500 of what is counted in pieces") {
  const Project project = project_of({cassette("P1")});
  const auto said = [&](const Settings& rates) { return costs(project.panels[0], project, rates).verdict; };
  // Per kg, so the rate is the price; seven pieces of 16.35 m, 0.045 m by 0.145 m of 420 kg/m³ are 6.40 kg each.
  CHECK(said(priced("kg", 0.0305)) == Verdict::information);
  CHECK(said(priced("kg", 0.0295)) == Verdict::not_assessed);
  CHECK(said(priced("kg", 29.8)) == Verdict::information);
  CHECK(said(priced("kg", 30.2)) == Verdict::not_assessed);
  const double piece_kg = (5 * 2.31 + 2 * 2.4) * 0.045 * 0.145 * 420.0 / 7.0;
  CHECK(said(priced("piece", 495.0 * piece_kg)) == Verdict::information);
  CHECK(said(priced("piece", 505.0 * piece_kg)) == Verdict::not_assessed);
}

TEST_CASE("a material without a rate is named, and the rest is a partial sum") {
  Project project = project_of({cassette("P1"), cassette("P2")});
  project.panels[0].parts.pop_back();
  Settings settings;
  add_rate(settings, 0, "softwood", "m", 3.0);
  add_rate(settings, 1, "particle board", "m2", 8.0);
  const Finding second = costs(project.panels[1], project, settings);
  CHECK(second.verdict == Verdict::not_assessed);
  CHECK(second.reason == "not priced: 'steel' has no rate; add a row to the file of 'quantities.rates_file'");
  CHECK(step(second, "K_p") == cost(project, settings));
  const Finding total = project_costs(project, cost_of_all(project, settings), settings);
  CHECK(total.verdict == Verdict::not_assessed);
  CHECK(total.reason.find("'P2'") != std::string::npos);
  CHECK(step(total, "K_p") == ExactSum().add(step(second, "K_p")).add(step(second, "K_p")).total());
}

TEST_CASE("a rate in a unit that the material is not measured in does not price it") {
  const Project project = project_of({cassette("P1")});
  const Finding found = costs(project.panels[0], project, priced("m2"));
  CHECK(found.verdict == Verdict::not_assessed);
  CHECK(found.reason == "not priced: 'softwood' is not all measured in m²; give a rate in another unit");
}

TEST_CASE("mixed currencies, double materials and unusable rates are not assessed") {
  const Project project = project_of({cassette("P1")});
  Settings mixed = priced();
  add_rate(mixed, 1, "particle board", "m2", 8.0, "EUR");
  CHECK(costs(project.panels[0], project, mixed).reason ==
        "settings 'quantities.rates' mix currencies (EUR, GBP); give all rates in one");
  Settings twice = priced();
  add_rate(twice, 3, "steel", "kg", 1.0);
  CHECK(costs(project.panels[0], project, twice).verdict == Verdict::not_assessed);
  Settings negative = priced();
  add_rate(negative, 2, "steel", "kg", -1.0);
  CHECK(costs(project.panels[0], project, negative).verdict == Verdict::not_assessed);
}

TEST_CASE("without rates the check of costs does not apply, and says why") {
  const Project project = project_of({cassette("P1")});
  const CheckOutcome of_panel = check_panel(project.panels[0], project, settings());
  const CheckOutcome of_project = check_project(project, cost_of_all(project, settings()), settings());
  for (const CheckOutcome& outcome : {of_panel, of_project}) {
    CHECK(std::none_of(outcome.findings.begin(), outcome.findings.end(),
                       [](const Finding& finding) { return finding.check == "quantities.costs"; }));
    const auto excused = std::find_if(outcome.not_applicable.begin(), outcome.not_applicable.end(),
                                      [](const NotApplicable& one) { return one.check == "quantities.costs"; });
    REQUIRE(excused != outcome.not_applicable.end());
    CHECK(excused->reason == "the settings give no rates of materials");
  }
  CHECK_FALSE(rates_given(settings()));
  CHECK(rates_given(priced()));
}

TEST_CASE("a rate of a name that two materials bear prices neither") {
  Project project = project_of({cassette("P1")});
  project.materials[1].name = "softwood";
  const Finding found = costs(project.panels[0], project, priced());
  CHECK(found.verdict == Verdict::not_assessed);
  CHECK(
      found.reason ==
      "not priced: 'softwood (1 of 2 of this name)' is the name of 2 materials, so which of them its rate is for is "
      "not known; give each a name of its own in the export; not priced: 'softwood (2 of 2 of this name)' is the name "
      "of 2 materials, so which of them its rate is for is not known; give each a name of its own in the export");
  CHECK(step(found, "K_p") == Approx(0.05 * 96).epsilon(1e-12));
}

TEST_CASE("a material that is called as windows and doors are is told, not guessed") {
  Project project = project_of({cassette("P1")});
  project.materials[2].name = "windows and doors, factory fitted";
  Settings rates = priced();
  add_rate(rates, 2, "windows and doors, factory fitted", "piece", 500.0);
  CHECK_THAT(costs(project.panels[0], project, rates).reason,
             Catch::Matchers::StartsWith("not priced: 'windows and doors, factory fitted' is the name of 2 materials"));
}

TEST_CASE("parts without a material have no price, whatever the rates are called") {
  Project project = project_of({cassette("P1")});
  project.panels[0].parts[0].material.reset();
  Settings rates = priced();
  add_rate(rates, 3, "not stated", "m", 3.0);
  CHECK(costs(project.panels[0], project, rates).reason ==
        "not priced: 'not stated' belongs to parts without a material; give each one in the export");
}

TEST_CASE("a code that is no currency is not assessed") {
  Settings rates = priced();
  add_rate(rates, 1, "particle board", "m2", 8.0, "Gbp");
  const Project project = project_of({cassette("P1")});
  CHECK(costs(project.panels[0], project, rates).reason ==
        "setting 'quantities.rates.1.currency' must be three capital letters of ISO 4217:2015");
}

TEST_CASE("rates that no panel uses are named") {
  const Project project = project_of({cassette("P1")});
  Settings rates = priced();
  const auto notes = [&] { return project_costs(project, cost_of_all(project, rates), rates).notes; };
  const std::size_t before = notes().size();
  add_rate(rates, 3, "soft wood", "m3", 400.0);
  add_rate(rates, 4, "windows and doors, factory fitted", "piece", 500.0);
  REQUIRE(notes().size() == before + 1);
  CHECK(notes().back() ==
        "Rates of materials that no panel uses: 'soft wood', 'windows and doors, factory fitted'; look for a name that "
        "is written in another way in the export.");
}

TEST_CASE("costs of materials, panels and project agree to the last digit") {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> size(0.1, 2.3);
    std::vector<Panel> panels;
    for (int i = 0; i < 25; ++i) {
      panels.push_back(cassette("P" + std::to_string(i)));
      panels.back().parts.push_back(box(PartKind::blocking, "b", 0, {}, {size(random), 0.145, 0.045}));
      panels.back().parts.push_back(box(PartKind::sheet, "s", 1, {}, {size(random), 0.012, size(random)}));
    }
    Settings settings;
    add_rate(settings, 0, "softwood", "m3", 400.0 * size(random));
    add_rate(settings, 1, "particle board", "m2", 10.0 * size(random));
    add_rate(settings, 2, "steel", "kg", size(random));
    const Project project = project_of(std::move(panels));
    auto all = cost_of_all(project, settings);
    const Finding total = project_costs(project, all, settings);
    ExactSum of_panels;
    for (const PanelFindings& panel : all) of_panels.add(std::get<double>(panel.findings[0].value));
    CHECK(std::get<double>(total.value) == of_panels.total());
    ExactSum of_materials;
    for (const auto& row : total.tables.at(1).rows) of_materials.add(std::get<double>(row.back()));
    CHECK(std::get<double>(total.value) == of_materials.total());
    CHECK(total.tables.at(1).rows.size() == 3);
    std::reverse(all.begin(), all.end());
    CHECK(std::get<double>(project_costs(project, all, settings).value) == std::get<double>(total.value));
  }
}
