#include <catch2/catch.hpp>
#include <cmath>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/checks.h"
#include "tests/structural/braced_panel.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/hoisted_panel.h"
#include "tests/structural/structural_tables.h"
#include "tests/support/cassette_settings.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

std::vector<Finding> all_findings(const Project& project, const Settings& settings = cassette_settings()) {
  return findings_as_drawn(project, settings);
}

/// Studs 45 x 145 of C24 at 600 mm over 2.91 m with 1.0 kPa of wind.
Project panel_under_wind(const CassetteSpec& spec = {}) {
  Project project = cassette_project(spec);
  project.panels.front().properties.add("Panel_Structure", "DesignWindPressure", property_of(1000.0));
  return project;
}

Project load_bearing_panel() {
  Project project = panel_under_wind();
  Properties& properties = project.panels.front().properties;
  replace(properties, "Pset_WallCommon", "LoadBearing", property_of(true));
  properties.add("Panel_Structure", "PermanentLineLoad", property_of(8000.0));
  properties.add("Panel_Structure", "VariableLineLoad", property_of(6000.0));
  properties.add("Panel_Structure", "VariableLoadCategory", property_of("C"));
  properties.add("Panel_Structure", "RackingLoad", property_of(0.0));
  return project;
}

/// The stud at 1.8 m of C16, those beside it of C24.
void weaken_fourth_stud(Project& project) {
  project.materials.push_back(project.materials[kTimber]);
  replace(project.materials.back().properties, "Pset_MaterialWood", "StrengthGrade", property_of("C16"));
  part_named(project, "S4").material = project.materials.size() - 1;
}

const std::vector<std::string> kStudChecks{"structural.stud_bending", "structural.stud_stability",
                                           "structural.stud_shear", "structural.deflection"};

}  // namespace

TEST_CASE("A panel gets one finding for each check, each with clause, inputs and steps") {
  Project project = braced_project();
  make_hoistable(project);
  const auto findings = all_findings(project, hoisting_settings(braced_settings()));
  REQUIRE(findings.size() == 17);
  for (const Finding& finding : findings) {
    INFO(finding.check);
    CHECK(finding.panel == "panel");
    CHECK_FALSE(finding.clause.empty());
    CHECK_FALSE(finding.inputs.empty());
    CHECK_FALSE(finding.notes.empty());
  }
  for (const std::string& check : kStudChecks) CHECK_FALSE(finding_of(findings, check).steps.empty());
}

TEST_CASE("Bending of the governing stud can be redone by hand") {
  const auto findings = all_findings(panel_under_wind());
  const Finding& finding = finding_of(findings, "structural.stud_bending");
  // w_d = 1.5·1.0·0.6 = 0.9 kN/m; M = 0.9·2.91²/8 = 0.9527 kNm; W = 157 688 mm³; σ = 6.041 N/mm².
  // k_h = (150/145)^0.2 = 1.0068; k_sys = 1.1; f_m,d = 1.0068·1.1·0.9·24/1.3 = 18.40 N/mm².
  CHECK(step_of(finding, "M_y,d") == Approx(0.9527).epsilon(1e-3));
  CHECK(std::get<double>(finding.value) == Approx(6.041).epsilon(1e-3));
  CHECK(std::get<double>(finding.limit) == Approx(18.40).epsilon(1e-3));
  CHECK(finding.verdict == Verdict::pass);
  CHECK(finding.utilisation.value() == Approx(6.041 / 18.40).epsilon(1e-3));
}

TEST_CASE("A weak stud among strong ones governs by what it can take, though others are loaded more") {
  Project project = panel_under_wind();
  weaken_fourth_stud(project);
  make_hoistable(project);
  const auto findings = all_findings(project, hoisting_settings());
  // C16 of EN 338: f_m 16, f_v 3.2, E_0,mean 8000, G_mean 500 N/mm². The stud at 1.8 m carries 0.3 m and half of the
  // way to the middle of the last stud, 22.5 mm from the edge: 0.58875 m; that at 1.2 m carries 0.6 m. Load sharing
  // (6.6) needs equal neighbours, so k_sys = 1.
  const double line_load = 1.5 * 0.58875;
  const Finding& bending = finding_of(findings, "structural.stud_bending");
  CHECK(number_of(bending) == Approx(line_load * 2.91 * 2.91 / 8.0 * 1e6 / (45.0 * 145.0 * 145.0 / 6.0)));
  CHECK(std::get<double>(bending.limit) == Approx(std::pow(150.0 / 145.0, 0.2) * 0.9 * 16.0 / 1.3));
  const Finding& shear = finding_of(findings, "structural.stud_shear");
  CHECK(number_of(shear) == Approx(1.5 * line_load * 2910.0 / 2.0 / (0.67 * 45.0 * 145.0)));
  CHECK(std::get<double>(shear.limit) == Approx(0.9 * 3.2 / 1.3));
  CHECK(step_of(finding_of(findings, "structural.stud_stability"), "f_m,y,d") ==
        Approx(std::pow(150.0 / 145.0, 0.2) * 0.9 * 16.0 / 1.3));
  const Finding& deflection = finding_of(findings, "structural.deflection");
  CHECK(number_of(deflection) ==
        Approx(5.0 * 0.58875 * std::pow(2910.0, 4) / (384.0 * 8000.0 * 45.0 * std::pow(145.0, 3) / 12.0) +
               1.2 * 0.58875 * 2910.0 * 2910.0 / (8.0 * 500.0 * 45.0 * 145.0)));
  // Turning up bends it less than the one at 1.2 m too: the limit tells whose it is. γ_G 1.35, ψ 1.3.
  const Finding& turning = finding_of(findings, "structural.turning_up");
  CHECK(step_of(turning, "b_t") == Approx(0.58875));
  CHECK(std::get<double>(turning.limit) == Approx(std::pow(150.0 / 145.0, 0.2) * 0.9 * 16.0 / 1.3));
}

TEST_CASE("A calculated wind pressure is traced to the wind velocity") {
  const auto findings = all_findings(cassette_project());
  for (const Input& input : finding_of(findings, "structural.stud_bending").inputs) {
    if (input.symbol == "w_k") CHECK(input.origin.key == "structural.wind.basic_velocity_m_per_s");
  }
}

TEST_CASE("Shear of the governing stud can be redone by hand") {
  const auto findings = all_findings(panel_under_wind());
  const Finding& finding = finding_of(findings, "structural.stud_shear");
  // V = 0.9·2.91/2 = 1.3095 kN; τ = 1.5·1309.5/(0.67·45·145) = 0.4493 N/mm²; f_v,d = 1.1·0.9·4/1.3 = 3.046 N/mm².
  CHECK(std::get<double>(finding.value) == Approx(0.4493).epsilon(1e-3));
  CHECK(std::get<double>(finding.limit) == Approx(3.046).epsilon(1e-3));
}

TEST_CASE("Deflection of the governing stud can be redone by hand") {
  const auto findings = all_findings(panel_under_wind());
  const Finding& finding = finding_of(findings, "structural.deflection");
  // I = 45·145³/12 = 11.432e6 mm⁴; u_m = 5·0.6·2910⁴/(384·11000·11.432e6) = 4.455 mm;
  // u_v = 1.2·0.6·2910²/(8·690·45·145) = 0.169 mm; limit 2910/300 = 9.7 mm.
  CHECK(step_of(finding, "u_m") == Approx(4.455).epsilon(1e-3));
  CHECK(step_of(finding, "u_v") == Approx(0.1693).epsilon(2e-3));
  CHECK(std::get<double>(finding.limit) == Approx(9.7));
  CHECK(finding.verdict == Verdict::pass);
}

TEST_CASE("Stability of a load-bearing stud can be redone by hand") {
  const auto findings = all_findings(load_bearing_panel());
  const Finding& finding = finding_of(findings, "structural.stud_stability");
  // λ_y = 2910/(145/√12) = 69.52; λ_rel = 69.52/π·√(21/7400) = 1.1789;
  // k = 0.5·(1 + 0.2·0.8789 + 1.3898) = 1.2828; k_c,y = 1/(1.2828 + √(1.6456 − 1.3898)) = 0.5592.
  CHECK(step_of(finding, "λ_y") == Approx(69.52).epsilon(1e-3));
  CHECK(step_of(finding, "λ_rel,y") == Approx(1.1789).epsilon(1e-3));
  CHECK(step_of(finding, "k_c,y") == Approx(0.5592).epsilon(1e-3));
  const double compression = step_of(finding, "σ_c,0,d") / (0.5592 * step_of(finding, "f_c,0,d"));
  const double bending = step_of(finding, "σ_m,y,d") / step_of(finding, "f_m,y,d");
  CHECK(std::get<double>(finding.value) == Approx(compression + bending).epsilon(1e-3));
}

TEST_CASE("The axial load is self-weight above mid-height and the loads on the head over the width carried") {
  const auto findings = all_findings(load_bearing_panel());
  const Finding& finding = finding_of(findings, "structural.stud_stability");
  const double g = step_of(finding, "g");
  CHECK(step_of(finding, "G") == Approx((g + 8.0) * 0.6));
  CHECK(step_of(finding, "Q") == Approx(6.0 * 0.6));
}

TEST_CASE("A panel that stands on its foot past several supports loads its lowest span with all that lies above") {
  Project project = panel_under_wind({.height_m = 9.0});
  const auto whole = all_findings(project);
  project.panels.front().properties.add("Panel_Structure", "SupportSpacing", property_of(3.0));
  const auto supported = all_findings(project);
  const Finding& lowest = finding_of(supported, "structural.stud_stability");
  // Mass per m² of face: five studs of 45 x 145 and two sheets of OSB 12 mm; the middle of the lowest 3 m lies 1.5 m
  // above the foot, so 7.5 of 9 m press on it. Fillings and lining weigh a few grams here, less than 1e-4 of it.
  const double studs_kg = 5.0 * 0.045 * 0.145 * 8.91 * 420.0;
  const double rails_kg = 2.0 * 2.4 * 0.045 * 0.145 * 420.0;
  const double sheets_kg = 2.0 * 2.4 * 9.0 * 0.012 * 620.0;
  CHECK(step_of(lowest, "ρ_g") == Approx(7.5 / 9.0));
  CHECK(step_of(lowest, "g") ==
        Approx(7.5 / 9.0 * (studs_kg + rails_kg + sheets_kg) * 9.80665 / 2.4 / 1e3).epsilon(1e-4));
  CHECK(step_of(finding_of(whole, "structural.stud_stability"), "ρ_g") == 0.5);
}

TEST_CASE("A part above the highest support is calculated as a cantilever") {
  // 7.0 m with supports at 3.0 m: 1.0 m projects. w_d = 1.5·1.0·0.6 = 0.9 kN/m, W = 0.6 kN/m.
  Project project = panel_under_wind({.height_m = 7.0});
  Properties& properties = project.panels.front().properties;
  properties.add("Panel_Structure", "SupportSpacing", property_of(3.0));
  const auto findings = all_findings(project);
  const Finding& shear = finding_of(findings, "structural.stud_shear");
  CHECK(step_of(shear, "a") == Approx(1.0));
  // Two spans of 3 m: without load on the top 0.625·w·l at the middle support, which load on the top relieves.
  CHECK(step_of(shear, "V_d") == Approx(0.625 * 0.9 * 3.0));
  // Virtual work on two spans: the rotation over the upper support is M·l/(3.4286·E·I) (three-moment equation: the far
  // end of the span is held by the next), so bending gives w·a⁴/8 + w·a³/2·l·7/24 = 0.6·(1/8 + 3·7/48)/(E·I) = 2.684 mm
  // with E·I = 125.75 kNm². Shear adds 1.2·0.6·1000²/(2·690·45·145) = 0.080 mm on the top and some 0.03 mm below it.
  const Finding& deflection = finding_of(findings, "structural.deflection");
  CHECK(step_of(deflection, "u_a") > 2.684 + 0.080);
  CHECK(step_of(deflection, "u_a") < 2.684 + 0.080 + 0.06);
  CHECK(step_of(deflection, "u_a,lim") == Approx(2.0 * 1000.0 / 300.0));
  CHECK(deflection.notes.size() >= 3);

  properties.add("Panel_Structure", "TopProjection", property_of(0.0));
  const auto held = all_findings(project);
  CHECK_THROWS_AS(step_of(finding_of(held, "structural.deflection"), "u_a"), std::out_of_range);
}

TEST_CASE("A long part above the highest support governs bending, buckling and deflection") {
  Project project = panel_under_wind({.height_m = 5.4});
  Properties& properties = project.panels.front().properties;
  properties.add("Panel_Structure", "SupportSpacing", property_of(3.0));
  const auto findings = all_findings(project);
  const Finding& bending = finding_of(findings, "structural.stud_bending");
  // a = 2.4 m: 0.9·2.4²/2 = 2.592 kNm at the support, more than 0.9·3²/8 = 1.0125 kNm of the span.
  CHECK(step_of(bending, "M_y,d") == Approx(2.592));
  double hogging = 0.0;
  for (const Vec2& point : bending.series[0].curves[0].points) hogging = std::min(hogging, point.y);
  CHECK(hogging == Approx(-2.592));
  CHECK(step_of(finding_of(findings, "structural.stud_stability"), "λ_y") ==
        Approx(4800.0 / (145.0 / std::sqrt(12.0))));
  const Finding& deflection = finding_of(findings, "structural.deflection");
  CHECK(std::get<double>(deflection.value) == Approx(step_of(deflection, "u_a")));
  CHECK(deflection.verdict == Verdict::fail);
  CHECK(deflection.reason == "deflection of the top of 'S3' exceeds its limit");
}

TEST_CASE("An annex that does not belong to the jurisdiction is noted on every check of studs") {
  const auto first_note = [](const char* jurisdiction, const char* annex, const std::string& check) {
    Settings settings = cassette_settings();
    settings.set("project.jurisdiction", std::string(jurisdiction));
    settings.set("structural.national_annex", std::string(annex));
    return finding_of(all_findings(panel_under_wind(), settings), check).notes.at(0);
  };
  for (const std::string& check : kStudChecks) {
    INFO(check);
    CHECK(first_note("England", "recommended", check) ==
          "The factors are those of 'recommended' (setting structural.national_annex), but the annex of 'England' "
          "(setting project.jurisdiction) is 'UK'. The structural engineer must agree to the choice.");
    CHECK(first_note("Elsewhere", "recommended", check) ==
          "The tables do not say which national annex belongs to 'Elsewhere' (setting project.jurisdiction); the "
          "factors are those of 'recommended' (setting structural.national_annex). The structural engineer must agree "
          "to the choice.");
    CHECK_FALSE(first_note("England", "UK", check).starts_with("The factors"));
  }
}

TEST_CASE("Without sheathing the stud buckles along the wall and the finding says so") {
  const auto held = all_findings(panel_under_wind());
  Project unsheathed = panel_under_wind({.sheathed_inside = false, .sheathed_outside = false});
  unsheathed.panels.front().layers.clear();
  const auto bare = all_findings(unsheathed);
  const Finding& finding = finding_of(bare, "structural.stud_stability");
  CHECK(step_of(finding, "λ_z") == Approx(2910.0 / (45.0 / std::sqrt(12.0))));
  CHECK(std::get<double>(finding.value) > std::get<double>(finding_of(held, "structural.stud_stability").value));
}

TEST_CASE("Supports up the panel shorten the span") {
  Project project = panel_under_wind({.height_m = 9.0});
  const auto tall = all_findings(project);
  project.panels.front().properties.add("Panel_Structure", "SupportSpacing", property_of(3.0));
  const auto supported = all_findings(project);
  CHECK(finding_of(tall, "structural.deflection").verdict == Verdict::fail);
  CHECK(finding_of(supported, "structural.deflection").verdict == Verdict::pass);
  CHECK(step_of(finding_of(supported, "structural.deflection"), "l") == Approx(3.0));
}

TEST_CASE("A stud that is too weak fails and is named") {
  Project project = panel_under_wind();
  replace(project.panels.front().properties, "Panel_Structure", "DesignWindPressure", property_of(9000.0));
  const auto findings = all_findings(project);
  const Finding& finding = finding_of(findings, "structural.stud_bending");
  CHECK(finding.verdict == Verdict::fail);
  CHECK(finding.reason == "bending stress exceeds the bending strength of 'S3'");
}

TEST_CASE("The governing stud's moment and deflected shape are drawn") {
  const auto findings = all_findings(panel_under_wind());
  const Finding& bending = finding_of(findings, "structural.stud_bending");
  REQUIRE(bending.series.size() == 1);
  double largest = 0.0;
  for (const Vec2& point : bending.series[0].curves[0].points) largest = std::max(largest, point.y);
  CHECK(largest == Approx(step_of(bending, "M_y,d")));
  const Finding& deflected = finding_of(findings, "structural.deflection");
  REQUIRE(deflected.series.size() == 1);
  CHECK(deflected.series[0].curves[0].points[10].y == Approx(std::get<double>(deflected.value)));
}

TEST_CASE("The same panel gives the same findings whatever ran before") {
  const auto first = all_findings(load_bearing_panel());
  all_findings(panel_under_wind());
  const auto second = all_findings(load_bearing_panel());
  for (std::size_t i = 0; i < first.size(); ++i) CHECK(first[i].value == second[i].value);
}

TEST_CASE("A finish limits deflection where the settings give no ratio") {
  Settings settings = without(braced_settings(), "structural.deflection_limit_ratio");
  settings.set("structural.deflection_finish", std::string("masonry"));
  const auto findings = all_findings(braced_project(), settings);
  CHECK(std::get<double>(finding_of(findings, "structural.deflection").limit) == Approx(2910.0 / 500.0));
}
