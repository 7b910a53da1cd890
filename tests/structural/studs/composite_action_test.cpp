// Studs that work together with their sheets: the setting, hand calculation of a panel, and what is refused.
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <numbers>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/checks.h"
#include "plugins/structural/studs/composite_stud.h"
#include "tests/structural/braced_panel.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/structural_tables.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Settings composite_settings() {
  Settings settings = braced_settings();
  settings.set("structural.composite_sheathing", std::string("annex B"));
  return settings;
}

std::vector<Finding> findings_of(const Project& project, const Settings& settings = composite_settings()) {
  return findings_as_drawn(project, settings);
}

bool has_note(const Finding& finding, const std::string& words) {
  return std::any_of(finding.notes.begin(), finding.notes.end(),
                     [&](const std::string& note) { return note.find(words) != std::string::npos; });
}

}  // namespace

TEST_CASE("Composite action is neglected unless the setting asks for it") {
  Settings neglected = braced_settings();
  neglected.set("structural.composite_sheathing", std::string("neglected"));
  for (const Settings& settings : {braced_settings(), neglected}) {
    const auto findings = findings_of(braced_project(), settings);
    CHECK_THROWS_AS(finding_of(findings, "structural.composite_action"), std::out_of_range);
    CHECK(
        has_note(finding_of(findings, "structural.stud_bending"), "Composite action with the sheathing is neglected"));
  }
}

TEST_CASE("A stud with a sheet on one face can be redone by hand") {
  const auto findings = findings_of(braced_project());
  const Finding& finding = finding_of(findings, "structural.composite_action");
  REQUIRE(finding.verdict == Verdict::pass);
  // Stud 45 × 145 of C24, OSB/3 12 mm: the stud at 600 mm spans 2.91 m. Clear width 555 mm: half of it,
  // 277.5 mm, is beyond the limit on a side, min(0.15·2910; 25·12)/2 = 150 mm. So b_1 = 45 + 2·150 mm between edges.
  CHECK(step_of(finding, "b_lag,1") == Approx(0.15 * 2910.0));
  CHECK(step_of(finding, "b_buc,1") == Approx(300.0));
  CHECK(step_of(finding, "b_1") == Approx(345.0));
  // The worst stud stands between the edges: twice the 100 mm along edges.
  CHECK(step_of(finding, "s_1") == Approx(200.0));
  const double density = std::sqrt(420.0 * 620.0);
  const double k_u = 2.0 / 3.0 * std::pow(density, 1.5) * std::pow(2.5, 0.8) / 30.0;
  CHECK(step_of(finding, "K_u,1") == Approx(k_u));
  const double pi = std::numbers::pi;
  const double gamma = 1.0 / (1.0 + pi * pi * 3800.0 * 345.0 * 12.0 * 200.0 / (k_u * 2910.0 * 2910.0));
  CHECK(step_of(finding, "γ_1") == Approx(gamma));
  const double sheet_n = gamma * 3800.0 * 345.0 * 12.0;
  const double stud_n = 11000.0 * 45.0 * 145.0;
  const double a_2 = sheet_n * 78.5 / (sheet_n + stud_n);
  const double stiffness = 3800.0 * 345.0 * 12.0 * 12.0 * 12.0 / 12.0 + sheet_n * (78.5 - a_2) * (78.5 - a_2) +
                           11000.0 * 45.0 * 145.0 * 145.0 * 145.0 / 12.0 + stud_n * a_2 * a_2;
  CHECK(step_of(finding, "a_2") == Approx(a_2));
  CHECK(step_of(finding, "EI_ef,u") == Approx(stiffness / 1e9));
  // The edge stud's centre lies 22.5 mm in: b_t = (577.5 + 600)/2 mm. Wind leads: w_d = 1.5·1.0·b_t; kmod = 0.9 of
  // timber and 0.7 of OSB/3 in service class 2; ψ2 = 0.
  const double w = 1.5 * 0.58875;
  const double moment = w * 2910.0 * 2910.0 / 8.0;
  CHECK(step_of(finding, "M_y,d") == Approx(moment / 1e6));
  CHECK(step_of(finding, "σ_2") == Approx(11000.0 * a_2 * moment / stiffness));
  CHECK(step_of(finding, "σ_m,2") == Approx(0.5 * 11000.0 * 145.0 * moment / stiffness));
  CHECK(step_of(finding, "σ_1") == Approx(gamma * 3800.0 * (78.5 - a_2) * moment / stiffness));
  CHECK(step_of(finding, "f_d") == Approx(0.7 * 9.4 / 1.2));
  CHECK(step_of(finding, "F_i") == Approx(sheet_n * (78.5 - a_2) * 200.0 * w * 2910.0 / 2.0 / stiffness));
  const double system = step_of(finding, "f_t,0,d") / (0.9 * 14.5 / 1.3);
  CHECK((system == Approx(1.0) || system == Approx(1.1)));
  const double largest =
      std::max({step_of(finding, "η_stud"), step_of(finding, "η_sheet"), step_of(finding, "η_fastener")});
  CHECK(std::get<double>(finding.value) == Approx(largest));
}

TEST_CASE("Bending and deflection take the stiffness of annex B, stability does not") {
  const auto alone = findings_of(braced_project(), braced_settings());
  const auto together = findings_of(braced_project());
  const auto value = [](const std::vector<Finding>& findings, const char* check) {
    return std::get<double>(finding_of(findings, check).value);
  };
  CHECK(value(together, "structural.stud_bending") < value(alone, "structural.stud_bending"));
  CHECK(value(together, "structural.deflection") < value(alone, "structural.deflection"));
  CHECK(value(together, "structural.stud_stability") == value(alone, "structural.stud_stability"));
  const Finding& bending = finding_of(together, "structural.stud_bending");
  CHECK(bending.utilisation.value() == Approx(step_of(bending, "η_stud")));
  const Finding& deflection = finding_of(together, "structural.deflection");
  const double w = step_of(deflection, "W");
  CHECK(step_of(deflection, "u_m") ==
        Approx(5.0 * w * std::pow(2.91, 4) / (384.0 * step_of(deflection, "EI_ef")) * 1e3));
  CHECK(step_of(deflection, "EI_ef,fin") < step_of(deflection, "EI_ef") / 1.8);
}

TEST_CASE("A second sheet of the same kind puts the neutral axis into the middle of the stud") {
  Project project = braced_project();
  for (const char* name : {"inner sheet", "right sheet", "nails"}) {
    Part outer = part_named(project, name);
    outer.name = std::string("outer ") + name;
    outer.bounds->min.y = 0.157;
    outer.bounds->max.y = 0.169;
    project.panels.front().parts.push_back(outer);
  }
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, "structural.composite_action");
  CHECK(step_of(finding, "a_2") == Approx(0.0).margin(1e-9));
  CHECK(step_of(finding, "σ_2") == Approx(0.0).margin(1e-9));
  CHECK(step_of(finding, "γ_1") == Approx(step_of(finding, "γ_3")));
  CHECK(step_of(finding, "EI_ef,u") >
        step_of(finding_of(findings_of(braced_project()), "structural.composite_action"), "EI_ef,u"));
}

TEST_CASE("A spacing between the edges that nobody states is the widest that 10.8.2(1) allows") {
  // Twice the spacing along the edges, and no more than 300 mm.
  struct Spacing {
    double edges_m;
    double between_m;
  };
  for (const Spacing& one : {Spacing{0.10, 0.20}, Spacing{0.14, 0.28}, Spacing{0.15, 0.30}, Spacing{0.18, 0.30}}) {
    INFO(one.edges_m);
    Project stated = braced_project();
    replace(part_named(stated, "nails").properties, "Panel_Fastener", "Spacing", property_of(one.edges_m));
    Project silent = stated;
    replace(part_named(stated, "nails").properties, "Panel_Fastener", "IntermediateSpacing",
            property_of(one.between_m));
    remove(part_named(silent, "nails").properties, "Panel_Fastener.IntermediateSpacing");
    const auto with = findings_of(stated);
    const auto without = findings_of(silent);
    CHECK(step_of(finding_of(without, "structural.composite_action"), "EI_ef,u") ==
          Approx(step_of(finding_of(with, "structural.composite_action"), "EI_ef,u")).epsilon(1e-12));
  }
}

TEST_CASE("Screws that are too weak for the slip force fail the panel") {
  Project project = braced_project();
  replace(part_named(project, "nails").properties, "Panel_Fastener", "TensileStrength", property_of(20e6));
  replace(project.panels.front().properties, "Panel_Structure", "DesignWindPressure", property_of(3000.0));
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, "structural.composite_action");
  CHECK(finding.verdict == Verdict::fail);
  CHECK(std::get<double>(finding.value) == Approx(step_of(finding, "η_fastener")));
}

TEST_CASE("Composite action without its data is not assessed and named, and studs are checked alone") {
  struct Case {
    const char* label;
    std::function<void(Project&, Settings&)> spoil;
    const char* reason;
  };
  const std::vector<Case> cases{
      {"no spacing", [](Project& p, Settings&) { remove(part_named(p, "nails").properties, "Panel_Fastener.Spacing"); },
       "Panel_Fastener.Spacing of 'nails' (spacing along edges of sheets)"},
      {"spacing of zero between edges",
       [](Project& p, Settings&) {
         replace(part_named(p, "nails").properties, "Panel_Fastener", "IntermediateSpacing", property_of(0.0));
       },
       "Panel_Fastener.IntermediateSpacing of 'nails' (spacing on studs between the edges)"},
      {"gypsum",
       [](Project& p, Settings&) {
         replace(p.materials[kOsb].properties, "Panel_Fire", "ProtectionRole", property_of("GYPSUM_H"));
       },
       "no sheet of a wood-based panel lies on the studs (IfcPlate SHEET)"},
      {"product without a row",
       [](Project& p, Settings&) {
         replace(p.materials[kOsb].properties, "Panel_Board", "ProductStandard", property_of("EN 636 plywood"));
         p.materials[kOsb].properties.add("Panel_Board", "CharacteristicDensity", property_of(410.0));
       },
       "no row of plywood for this thickness in panel_products.csv (EN 12369-1)"},
      {"sheets in two lengths",
       [](Project& p, Settings&) {
         for (const char* name : {"inner sheet", "right sheet"}) {
           Part upper = part_named(p, name);
           upper.bounds->min.z = 1.5;
           part_named(p, name).bounds->max.z = 1.5;
           p.panels.front().parts.push_back(upper);
         }
       },
       "no stud works with a sheet: no sheet in one piece over its whole length (sheets of a wood-based panel over the "
       "whole height of a stud)"},
      {"unknown way", [](Project&, Settings& s) { s.set("structural.composite_sheathing", std::string("annex C")); },
       "setting structural.composite_sheathing is 'annex C': neglected or annex B"},
  };
  for (const Case& bad : cases) {
    INFO(bad.label);
    Project project = braced_project();
    Settings settings = composite_settings();
    bad.spoil(project, settings);
    const auto findings = findings_of(project, settings);
    const Finding& finding = finding_of(findings, "structural.composite_action");
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason == bad.reason);
    const auto alone = findings_of(project, braced_settings());
    CHECK(std::get<double>(finding_of(findings, "structural.stud_bending").value) ==
          std::get<double>(finding_of(alone, "structural.stud_bending").value));
  }
}

TEST_CASE("A sheet without a density is named") {
  Project project = braced_project();
  remove(project.materials[kOsb].properties, "Pset_MaterialCommon.MassDensity");
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, "structural.composite_action");
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason.find("MassDensity") != std::string::npos);
}

TEST_CASE("The span of annex B is that of a simple beam, 0.8 of a continuous one's, twice a cantilever's, B.1.2") {
  using structural::composite_span_m;
  CHECK(composite_span_m({.length_m = 2.9, .supports_m = {0.0, 2.9}}) == 2.9);
  CHECK(composite_span_m({.length_m = 6.0, .supports_m = {0.0, 3.5, 6.0}}) == Approx(0.8 * 2.5));
  CHECK(composite_span_m({.length_m = 6.0, .supports_m = {0.0, 2.5, 6.0}}) == Approx(0.8 * 2.5));
  // The least of all counts: 2·0.9 m, then 0.8·3.0 m.
  CHECK(composite_span_m({.length_m = 6.9, .supports_m = {0.0, 3.0, 6.0}}) == Approx(1.8));
  CHECK(composite_span_m({.length_m = 7.5, .supports_m = {0.0, 3.0, 6.0}}) == Approx(2.4));
}

TEST_CASE("Studs that cannot work with their sheet are told apart from those that do") {
  const auto alone = [](const std::function<void(Project&)>& change) {
    Project project = braced_project();
    change(project);
    std::vector<std::string> faces;
    const Finding finding = finding_of(findings_of(project), "structural.composite_action");
    for (const auto& row : finding.tables.at(0).rows) faces.push_back(std::get<std::string>(row[2]));
    return faces;
  };
  CHECK(
      alone([](Project& p) { part_named(p, "S3").properties.add("Panel_Member", "Holes", property_of("30@1400")); }) ==
      std::vector<std::string>{"inner", "inner", "none: not a full rectangle over its length", "inner", "inner"});
  // Two pieces that meet at a support, so that nothing else is wrong with them.
  CHECK(alone([](Project& p) {
          p.panels.front().properties.add("Panel_Structure", "SupportSpacing", property_of(1.5));
          Part upper = part_named(p, "S3");
          upper.bounds->min.z = 1.5;
          part_named(p, "S3").bounds->max.z = 1.5;
          p.panels.front().parts.push_back(upper);
        }) == std::vector<std::string>{"inner", "inner", "none: stacked from pieces", "inner", "inner"});
}

TEST_CASE("A sheet over more than twice the width at which it buckles works with no stud, 9.1.2") {
  // OSB 12 mm buckles beyond 25·12 = 300 mm. Without the studs at 0.6 and 1.8 m 1.1325 m lie clear between two.
  Project project = braced_project();
  std::erase_if(project.panels.front().parts, [](const Part& part) { return part.name == "S2" || part.name == "S4"; });
  const Finding finding = finding_of(findings_of(project), "structural.composite_action");
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason.find("clear width of the sheet beyond twice that of plate buckling, 9.1.2") !=
        std::string::npos);
}

TEST_CASE("A flange ends at an opening beside its stud") {
  // The stud at 0.6 m ends at 0.6225 m, the opening begins at 0.7 m: 77.5 mm there, the limit of 150 mm on the left.
  const auto width = [](const std::optional<std::pair<double, double>>& heights_m) {
    Project project = braced_project();
    if (heights_m) {
      Opening opening;
      opening.name = "O1";
      opening.x_min_m = 0.7;
      opening.x_max_m = 1.1;
      opening.z_min_m = heights_m->first;
      opening.z_max_m = heights_m->second;
      project.panels.front().openings.push_back(opening);
    }
    const auto findings = findings_of(project);
    const Finding& finding = finding_of(findings, "structural.composite_action");
    std::vector<double> stiffer;
    for (const auto& row : finding.tables.at(0).rows) stiffer.push_back(std::get<double>(row[3]));
    return stiffer;
  };
  const auto without = width(std::nullopt);
  const auto beside = width(std::pair{1.0, 2.0});
  // Less flange is less stiffness at the studs beside it alone.
  CHECK(beside[0] == without[0]);
  CHECK(beside[1] < without[1]);
  CHECK(beside[2] < without[2]);
  CHECK(beside[3] == without[3]);
  CHECK(width(std::pair{3.0, 3.5}) == without);
}
