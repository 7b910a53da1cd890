// Area, mass, centre of gravity, fixings, loads and erection time of one panel.
#include <catch2/catch.hpp>
#include <cstddef>
#include <cstdint>
#include <string>

#include "core/api/support/exact_sum.h"
#include "plugins/quantities/checks.h"
#include "tests/quantities/cassette.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

Opening opening(double x_min_m, double width_m, double height_m) {
  Opening result;
  result.x_min_m = x_min_m;
  result.x_max_m = x_min_m + width_m;
  result.z_min_m = 0.3;
  result.z_max_m = 0.3 + height_m;
  return result;
}

}  // namespace

TEST_CASE("net area deducts every opening in full") {
  Panel panel = cassette("P1");
  panel.openings = {opening(0.2, 0.5, 1.0), opening(1.0, 1.2, 1.2)};
  const Finding found = area(panel, settings());
  CHECK(found.verdict == Verdict::information);
  CHECK(step(found, "A_gross") == 5.76);
  CHECK(step(found, "A_op") == 1.94);
  CHECK(std::get<double>(found.value) == 3.82);
  CHECK(found.unit == "m²");
}

TEST_CASE("the billed area keeps openings up to the limit in the settings") {
  Panel panel = cassette("P1");
  panel.openings = {opening(0.2, 1.0, 1.0), opening(1.2, 1.1, 1.0)};
  Settings with_limit = settings();
  with_limit.set("quantities.opening_deduction_over_m2", 1.0);
  const Finding found = area(panel, with_limit);
  CHECK(step(found, "A_bill") == 4.66);
  CHECK(std::get<double>(found.value) == 3.66);
}

TEST_CASE("a limit of nothing or of a hand's breadth bills every opening above it, one below nothing is refused") {
  Panel panel = cassette("P1");
  panel.openings = {opening(0.2, 0.2, 0.2), opening(1.2, 1.0, 1.0)};
  const auto with = [&](double limit_m2) {
    Settings chosen = settings();
    chosen.set("quantities.opening_deduction_over_m2", limit_m2);
    return area(panel, chosen);
  };
  CHECK(step(with(0.0), "A_bill") == 4.72);
  CHECK(step(with(0.05), "A_bill") == 4.76);
  CHECK(with(-0.01).verdict == Verdict::not_assessed);
  CHECK(with(-0.01).reason == "setting 'quantities.opening_deduction_over_m2' must not be negative");
}

TEST_CASE("openings larger than the panel are not assessed") {
  Panel panel = cassette("P1");
  panel.openings = {opening(0.0, 2.4, 2.5)};
  const Finding found = area(panel, settings());
  CHECK(found.verdict == Verdict::not_assessed);
  CHECK(found.reason == "the openings are larger than the panel; check their sizes");
}

TEST_CASE("a panel without width has no area, load or erection time") {
  Panel panel = cassette("P1");
  panel.width_m.value = 0.0;
  const Project project = project_of({panel});
  for (const Finding& found : {area(panel, settings()), loads(panel, project), erection_time(panel, settings()),
                               centre_of_gravity(panel, project)}) {
    CHECK(found.verdict == Verdict::not_assessed);
    CHECK(found.reason == "panel width must be greater than zero (export)");
  }
}

TEST_CASE("mass is the sum of its table by material") {
  const Project project = project_of({cassette("P1")});
  const Finding found = mass(project.panels[0], project);
  const double framing_m3 = 0.045 * 0.145 * (5 * 2.31 + 2 * 2.4);
  const double board_m3 = 0.012 * 2.4 * 2.4;
  // Each of the ten items is rounded to the milligram: at most half a milligram each.
  CHECK(std::get<double>(found.value) == Approx(420.0 * framing_m3 + 650.0 * board_m3 + 0.2).margin(5e-6).epsilon(0));
  REQUIRE(found.tables.size() == 1);
  ExactSum sum;
  for (const auto& row : found.tables[0].rows) sum.add(std::get<double>(row[3]));
  CHECK(sum.total() == std::get<double>(found.value));
  CHECK(found.tables[0].rows.size() == 3);
}

TEST_CASE("mass names densities, weighed items and volumes with their lines as inputs") {
  Project project = project_of({cassette("P1")});
  for (std::size_t i = 0; i < 5; ++i) project.panels[0].parts[i].origin.line = static_cast<std::uint32_t>(100 + i);
  const Finding found = mass(project.panels[0], project);
  REQUIRE(found.inputs.size() == 6);
  CHECK(found.inputs[0].name == "density of softwood");
  CHECK(found.inputs[1].name == "density of particle board");
  CHECK(found.inputs[2].name == "mass of screws 4.0 x 50");
  CHECK(found.inputs[3].name == "volume of particle board, sheet × 2");
  CHECK(found.inputs[4].name == "volume of softwood, rail × 2");
  CHECK(found.inputs[5].name == "volume of softwood, stud × 5");
  CHECK(std::get<double>(found.inputs[5].value) == Approx(5 * 0.045 * 0.145 * 2.31).margin(5e-7).epsilon(0));
  CHECK(found.inputs[5].origin.line == 100);
  CHECK(found.inputs[5].origin.property == "shape, first of 5, last at line 104");
}

TEST_CASE("without a density mass, load and centre of gravity are not assessed and say why") {
  Project project = project_of({cassette("P1")});
  project.materials[1] = material("particle board", std::nullopt);
  const std::string reason = "material 'particle board' has no positive Pset_MaterialCommon.MassDensity";
  for (const Finding& found : {mass(project.panels[0], project), loads(project.panels[0], project),
                               centre_of_gravity(project.panels[0], project)}) {
    CHECK(found.verdict == Verdict::not_assessed);
    CHECK(found.reason == reason);
  }
}

TEST_CASE("a panel measured from layers warns against lifting and has no centre of gravity") {
  Panel panel = cassette("P1");
  panel.parts.clear();
  Layer layer;
  layer.name = "wood";
  layer.material = 0;
  layer.thickness_m.value = 0.1;
  panel.layers = {layer};
  const Project project = project_of({panel});
  const Finding weighed = mass(panel, project);
  CHECK(std::get<double>(weighed.value) == 241.92);
  CHECK(weighed.notes.front().find("Do not lift on this figure") != std::string::npos);
  CHECK(centre_of_gravity(panel, project).reason == "'wood' has no shape, so where its mass lies is not known");
}

TEST_CASE("a symmetric panel has its centre of gravity at the middle of its width and height") {
  const Project project = project_of({cassette("P1")});
  const Finding found = centre_of_gravity(project.panels[0], project);
  CHECK(std::get<double>(found.value) == Approx(0.0).margin(1e-9));  // milligram rounding moves it less
  CHECK(step(found, "z_G") == Approx(1.2).margin(1e-9));
  CHECK(found.drawings.size() == 1);
}

TEST_CASE("a weight on the right moves the centre of gravity to the right by its moment") {
  Project project = project_of({cassette("P1")});
  Panel& panel = project.panels[0];
  const double before_kg = std::get<double>(mass(panel, project).value);
  panel.parts.push_back(box(PartKind::post, "post", 0, {2.2, 0.0, 0.0}, {0.1, 0.145, 2.0}));
  const double post_kg = 0.1 * 0.145 * 2.0 * 420.0;
  const Finding found = centre_of_gravity(panel, project);
  CHECK(std::get<double>(found.value) == Approx(post_kg * (2.25 - 1.2) / (before_kg + post_kg)).margin(1e-9));
}

TEST_CASE("self-weight is mass times standard gravity, also by metre of width") {
  const Project project = project_of({cassette("P1")});
  const Finding found = loads(project.panels[0], project);
  const double mass_kg = std::get<double>(mass(project.panels[0], project).value);
  CHECK(std::get<double>(found.value) == rounded_to_millionth(mass_kg * 9.80665 / 1000.0));
  CHECK(step(found, "g_k") == std::get<double>(found.value) / 2.4);
  CHECK(found.unit == "kN");
}

TEST_CASE("fixings are counted by type") {
  Panel panel = cassette("P1");
  panel.parts.push_back(screws("4.0 x 50", 4, 0.01));
  panel.parts.push_back(screws("6.0 x 120", 10, 0.2));
  const Project project = project_of({panel});
  const Finding found = fixings(panel, project);
  CHECK(std::get<double>(found.value) == 110.0);
  REQUIRE(found.tables.at(0).rows.size() == 2);
  CHECK(std::get<std::string>(found.tables[0].rows[0][0]) == "4.0 x 50");
  CHECK(std::get<double>(found.tables[0].rows[0][2]) == 100.0);
}

TEST_CASE("no fasteners in the export is not zero fasteners") {
  Panel panel = cassette("P1");
  panel.parts.pop_back();
  const Finding found = fixings(panel, project_of({panel}));
  CHECK(found.verdict == Verdict::not_assessed);
  CHECK(found.reason == "the export gives no fasteners (IfcMechanicalFastener) in this panel");
}

TEST_CASE("a fastener that stands for no pieces is named") {
  Panel panel = cassette("P1");
  panel.parts.push_back(screws("6.0 x 120", 0, 0.2));
  CHECK(fixings(panel, project_of({panel})).reason ==
        "fastener 'screws 6.0 x 120' stands for no pieces; give its count as an IfcQuantityCount");
}

TEST_CASE("erection time is gross area over the crew's output") {
  const Finding found = erection_time(cassette("P1"), settings());
  CHECK(std::get<double>(found.value) == 0.288);
  CHECK(found.inputs.back().origin.kind == OriginKind::setting);
}

TEST_CASE("without a crew output the erection time names the setting") {
  const Finding found = erection_time(cassette("P1"), Settings{});
  CHECK(found.verdict == Verdict::not_assessed);
  CHECK(found.reason ==
        "setting 'quantities.lift_cycle' is missing, the times of a lift; or at least setting "
        "'quantities.crew_area_rate_m2_per_h', the output of a crew");
}

// Mean densities of EN 338:2016 table 1 (from memory): C24 420 kg/m³. A solid block of 0.3 m³ therefore weighs 126 kg.
TEST_CASE("a block of C24 has the mass of its mean density") {
  Panel panel = cassette("P1");
  panel.parts = {box(PartKind::post, "block", 0, {0.0, 0.0, 0.0}, {0.5, 0.3, 2.0})};
  CHECK(std::get<double>(mass(panel, project_of({panel})).value) == 126.0);
}

// Two bodies balance at (m1·x1 + m2·x2)/(m1 + m2): law of the lever, closed form. Timber of 420 and board of 650 kg/m³
// of equal volume, 1 m apart, balance at 650/1070 of the distance.
TEST_CASE("a composite of two materials balances by the law of the lever") {
  Panel panel = cassette("P1");
  panel.parts = {box(PartKind::post, "timber", 0, {0.0, 0.0, 0.0}, {0.2, 0.1, 1.0}),
                 box(PartKind::sheet, "board", 1, {1.0, 0.0, 0.0}, {0.2, 0.1, 1.0})};
  const Finding found = centre_of_gravity(panel, project_of({panel}));
  CHECK(step(found, "m") == 21.4);
  // Centres are given to the micrometre.
  CHECK(step(found, "x_G") == Approx(0.1 + 650.0 / 1070.0).margin(5e-7).epsilon(0));
}
