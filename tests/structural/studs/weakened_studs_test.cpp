// Studs of other sections than a full rectangle, and one that stands as a cantilever, through all checks of studs:
// values by hand beside each check, and every printed formula redone.
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/findings.h"
#include "core/api/testing/formula.h"
#include "core/api/testing/properties.h"
#include "tests/structural/drawn_members.h"
#include "tests/support/cassette_settings.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// Studs 45 x 145 of C24 at 600 mm, sheets on both faces, 1.0 kPa of wind: w_d = 1.5·1.0·0.6 = 0.9 kN/m on the third.
Project windy_panel() {
  Project project = cassette_project();
  project.panels.front().properties.add("Panel_Structure", "DesignWindPressure", property_of(1000.0));
  return project;
}

template <typename Change>
void change_studs(Project& project, Change change) {
  for (Part& part : project.panels.front().parts) {
    if (part.kind == PartKind::stud) change(part);
  }
}

void draw(Part& stud, const Extrusion& solid) {
  stud.volume_m3->value = solid.volume_m3();
  stud.solid = solid;
}

/// A corner cut out of the inner side of both ends: 45 mm deep and this long.
void notch_ends(Part& stud, double foot_m, double head_m) {
  const Box3& box = *stud.bounds;
  const double cut_y = box.min.y + 0.045;
  Extrusion solid;
  // x of the profile up, y through the wall, so its normal is against the wall's x.
  solid.frame = {{box.max.x, 0.0, 0.0}, {0.0, 0.0, 1.0}, {0.0, 1.0, 0.0}, {-1.0, 0.0, 0.0}};
  solid.outline = {{box.min.z, cut_y},
                   {box.min.z + foot_m, cut_y},
                   {box.min.z + foot_m, box.min.y},
                   {box.max.z - head_m, box.min.y},
                   {box.max.z - head_m, cut_y},
                   {box.max.z, cut_y},
                   {box.max.z, box.max.y},
                   {box.min.z, box.max.y}};
  solid.depth_m = box.size().x;
  draw(stud, solid);
}

/// Flanges 45 × 39, a web 9 mm thick, 145 deep.
void make_i_shaped(Part& stud) {
  const Box3& box = *stud.bounds;
  const double x = box.min.x;
  const double y = box.min.y;
  Extrusion solid;
  for (const auto& [across_mm, deep_mm] : {std::pair{0, 0},
                                           {45, 0},
                                           {45, 39},
                                           {27, 39},
                                           {27, 106},
                                           {45, 106},
                                           {45, 145},
                                           {0, 145},
                                           {0, 106},
                                           {18, 106},
                                           {18, 39},
                                           {0, 39}}) {
    solid.outline.push_back({x + across_mm / 1e3, y + deep_mm / 1e3});
  }
  solid.frame.origin.z = box.min.z;
  solid.depth_m = box.size().z;
  draw(stud, solid);
}

double input_of(const Finding& finding, const std::string& symbol) {
  for (const Input& input : finding.inputs) {
    if (input.symbol == symbol) return std::get<double>(input.value);
  }
  throw std::out_of_range("no input " + symbol);
}

/// Findings of the first panel, whose formulas all hold.
std::vector<Finding> sound_findings(const Project& project, const Settings& settings = cassette_settings()) {
  const auto findings = findings_as_drawn(project, settings);
  for (const char* check : {"stud_bending", "stud_stability", "stud_shear", "deflection"}) {
    for (const std::string& fault : formula_faults(finding_of(findings, std::string("structural.") + check))) {
      FAIL_CHECK(check << ": " << fault);
    }
  }
  return findings;
}

constexpr double kSpanMoment_nmm = 0.9 * 2910.0 * 2910.0 / 8.0;

}  // namespace

TEST_CASE("Studs with a notch at either end are sheared on what is left there, less what the notch splits") {
  Project project = windy_panel();
  change_studs(project, [](Part& stud) { notch_ends(stud, 0.040, 0.060); });
  const auto findings = sound_findings(project);
  const Finding& shear = finding_of(findings, "structural.stud_shear");
  // Of two notches of one depth the longer counts: h_e = 100 mm, x_e = 60 mm. (6.62) with i = 0, k_n = 5, h in mm.
  const double a = 100.0 / 145.0;
  const double factor =
      5.0 / (std::sqrt(145.0) * (std::sqrt(a * (1.0 - a)) + 0.8 * 60.0 / 145.0 * std::sqrt(1.0 / a - a * a)));
  REQUIRE(factor < 1.0);
  CHECK(input_of(shear, "h_e") == Approx(100.0));
  CHECK(input_of(shear, "x_e") == Approx(60.0));
  CHECK(step_of(shear, "α") == Approx(a));
  CHECK(step_of(shear, "k_v") == Approx(factor));
  CHECK(number_of(shear) == Approx(1.5 * 0.9 * 2910.0 / 2.0 / (0.67 * 45.0 * 100.0)));
  CHECK(std::get<double>(shear.limit) == Approx(factor * 1.1 * 0.9 * 4.0 / 1.3));
  // Far from the ends the section is whole.
  CHECK(number_of(finding_of(findings, "structural.stud_bending")) ==
        Approx(kSpanMoment_nmm / (45.0 * 145.0 * 145.0 / 6.0)));
}

TEST_CASE("A hole in the middle of its depth weakens a stud by what is missing there") {
  Project project = windy_panel();
  change_studs(project, [](Part& stud) { stud.properties.add("Panel_Member", "Holes", property_of("30@1400")); });
  const auto findings = sound_findings(project);
  const Finding& bending = finding_of(findings, "structural.stud_bending");
  CHECK(input_of(bending, "d_o") == Approx(30.0));
  CHECK(number_of(bending) ==
        Approx(kSpanMoment_nmm / (45.0 * (std::pow(145.0, 3) - std::pow(30.0, 3)) / (6.0 * 145.0))));
  CHECK(number_of(finding_of(findings, "structural.stud_shear")) ==
        Approx(1.5 * 0.9 * 2910.0 / 2.0 / (0.67 * 45.0 * 115.0)));
}

TEST_CASE("An I-shaped stud is bent, sheared and bowed by the values of its outline") {
  Project project = windy_panel();
  change_studs(project, make_i_shaped);
  const auto findings = sound_findings(project);
  // A = 45·145 − 36·67; I = (45·145³ − 36·67³)/12; S of half: a flange 45·39·53 and half of the web 9·33.5²/2.
  const double area = 45.0 * 145.0 - 36.0 * 67.0;
  const double second = (45.0 * std::pow(145.0, 3) - 36.0 * std::pow(67.0, 3)) / 12.0;
  const double first = 45.0 * 39.0 * 53.0 + 9.0 * 33.5 * 33.5 / 2.0;
  const double weak = (2.0 * 39.0 * std::pow(45.0, 3) + 67.0 * std::pow(9.0, 3)) / 12.0;
  const double shear_area = 1.5 * second * 9.0 / first;
  const Finding& bending = finding_of(findings, "structural.stud_bending");
  CHECK(input_of(bending, "A") == Approx(area));
  CHECK(input_of(bending, "A_v") == Approx(shear_area).epsilon(1e-4));
  CHECK(input_of(bending, "i_y") == Approx(std::sqrt(second / area)));
  CHECK(input_of(bending, "i_z") == Approx(std::sqrt(weak / area)));
  CHECK(number_of(bending) == Approx(kSpanMoment_nmm / (second / 72.5)));
  // k_h is that of a rectangle; k_sys 1.1.
  CHECK(std::get<double>(bending.limit) == Approx(1.1 * 0.9 * 24.0 / 1.3));
  CHECK(number_of(finding_of(findings, "structural.stud_shear")) ==
        Approx(1.5 * 0.9 * 2910.0 / 2.0 / (0.67 * shear_area)).epsilon(1e-4));
  const Finding& deflection = finding_of(findings, "structural.deflection");
  CHECK(step_of(deflection, "u_m") == Approx(5.0 * 0.6 * std::pow(2910.0, 4) / (384.0 * 11000.0 * second)));
  CHECK(step_of(deflection, "u_v") == Approx(1.5 * 0.6 * 2910.0 * 2910.0 / (8.0 * 690.0 * shear_area)).epsilon(1e-4));
  CHECK(step_of(finding_of(findings, "structural.stud_stability"), "λ_y") == Approx(2910.0 / std::sqrt(second / area)));
  // The contact of such a stud on its rail is not known.
  const Finding& bearing = finding_of(findings, "structural.bearing");
  CHECK(bearing.verdict == Verdict::not_assessed);
  CHECK(bearing.reason.starts_with("the contact of 'S1', whose section or end is no full rectangle"));
}

TEST_CASE("A panel held at its foot alone is a cantilever of its whole height") {
  Project project = windy_panel();
  project.panels.front().properties.add("Panel_Structure", "TopProjection", property_of(2.95));
  const auto findings = sound_findings(project);
  const Finding& bending = finding_of(findings, "structural.stud_bending");
  // The support 50 mm above the foot is that of the foot: 3.0 m stand out. M = w·a²/2, V = w·a.
  CHECK(step_of(bending, "M_y,d") == Approx(0.9 * 3.0 * 3.0 / 2.0));
  CHECK(step_of(finding_of(findings, "structural.stud_shear"), "V_d") == Approx(0.9 * 3.0));
  CHECK(step_of(finding_of(findings, "structural.stud_stability"), "λ_y") ==
        Approx(6000.0 / (145.0 / std::sqrt(12.0))));
  const Finding& deflection = finding_of(findings, "structural.deflection");
  CHECK(number_of(deflection) == Approx(0.6 * std::pow(3000.0, 4) / (8.0 * 11000.0 * 45.0 * std::pow(145.0, 3) / 12.0) +
                                        1.2 * 0.6 * 3000.0 * 3000.0 / (2.0 * 690.0 * 45.0 * 145.0)));
  CHECK(std::get<double>(deflection.limit) == Approx(2.0 * 3000.0 / 300.0));
}

TEST_CASE("A stocky stud does not buckle through the wall, 6.3.2(2)") {
  Project project = cassette_project({.height_m = 0.6});
  project.panels.front().properties.add("Panel_Structure", "DesignWindPressure", property_of(1000.0));
  const auto findings = sound_findings(project);
  const Finding& stability = finding_of(findings, "structural.stud_stability");
  // λ = 510/(145/√12) = 12.2: λ_rel = 12.2/π·√(21/7400) = 0.207, below 0.3.
  CHECK(step_of(stability, "λ_rel,y") == Approx(510.0 * std::sqrt(12.0) / 145.0 / M_PI * std::sqrt(21.0 / 7400.0)));
  CHECK(step_of(stability, "k_c,y") == 1.0);
}
