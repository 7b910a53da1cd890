// Racking and the fixings of the sheathing, worked out by hand beside each check.
#include <catch2/catch.hpp>
#include <cmath>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/checks.h"
#include "tests/structural/braced_panel.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/structural_tables.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

std::vector<Finding> findings_of(const Project& project, const Settings& settings = braced_settings()) {
  return findings_as_drawn(project, settings);
}

}  // namespace

TEST_CASE("Racking by method A can be redone by hand") {
  const auto findings = findings_of(braced_project());
  const Finding& finding = finding_of(findings, "structural.racking");
  // Two sheets b = 1.2 m < h/2 = 1.5 m: c = 0.8. F_v,Rd = 2·1.2·F_f,Rd·1.2·0.8/0.1; F_v,Ed = 1.5·2 kN.
  const double fastener_n = step_of(finding, "F_f,Rd");
  CHECK(step_of(finding, "k_mod") == Approx(std::sqrt(0.9 * 0.7)));
  CHECK(fastener_n == Approx(step_of(finding, "k_mod") * step_of(finding, "F_v,Rk") / 1.3));
  CHECK(std::get<double>(finding.limit) == Approx(2.0 * 1.2 * fastener_n * 1.2 * 0.8 / 0.1 / 1e3));
  CHECK(std::get<double>(finding.value) == Approx(3.0));
  CHECK(finding.verdict == Verdict::evidence_needed);  // nails 9 mm from the edge of OSB
  // Each sheet takes 1.5 kN: pull and push 1.5·3.0/1.2 = 3.75 kN, less the permanent load on half of the sheet.
  CHECK(std::get<double>(finding.tables[0].rows[0][7]) == Approx(3.75));
  // In the middle pull and push cancel; at the ends 0.9 of the permanent load on half of a sheet holds more than that.
  REQUIRE(finding.tables[1].rows.size() == 2);
  CHECK(std::get<double>(finding.tables[1].rows[0][2]) == Approx(0.6 * step_of(finding, "g_t")));
  CHECK(step_of(finding, "g_t") > 3.75 / 0.6);
  CHECK(std::get<double>(finding.tables[1].rows[0][3]) == 0.0);
}

TEST_CASE("Racking by method B can be redone by hand") {
  Settings settings = braced_settings();
  settings.set("structural.racking_method", std::string("B"));
  const auto findings = findings_of(braced_project(), settings);
  const Finding& finding = finding_of(findings, "structural.racking");
  // One wall of 2.4 m: s0 = 9700·2.5/350 = 69.3 mm; kd = 2.4/3.0; ks = 1/(0.86·100/69.3 + 0.57).
  const double s0 = 9700.0 * 2.5 / 350.0;
  CHECK(step_of(finding, "s_0") == Approx(s0));
  CHECK(step_of(finding, "k_d") == Approx(0.8));
  CHECK(step_of(finding, "k_s") == Approx(1.0 / (0.86 * 100.0 / s0 + 0.57)));
  const double q = step_of(finding, "g_d");
  CHECK(step_of(finding, "k_i,q") == Approx(1.0 + 0.083 * q - 0.0008 * q * q));
  CHECK(std::get<double>(finding.limit) == Approx(step_of(finding, "F_f,Rd") * 2400.0 / s0 * 0.8 *
                                                  step_of(finding, "k_i,q") * step_of(finding, "k_s") / 1e3));
}

TEST_CASE("A racking load beyond the sheathing fails, and a second face of the same kind doubles the resistance") {
  Project project = braced_project();
  replace(project.panels.front().properties, "Panel_Structure", "RackingLoad", property_of(20e3));
  const auto one_face = findings_of(project);
  const Finding& weak = finding_of(one_face, "structural.racking");
  CHECK(weak.verdict == Verdict::fail);
  CHECK(finding_of(one_face, "structural.sheathing_fixings").verdict == Verdict::fail);
  for (const char* name : {"inner sheet", "right sheet", "nails"}) {
    Part outer = part_named(project, name);
    outer.name = std::string("outer ") + name;
    outer.bounds->min.y = 0.157;
    outer.bounds->max.y = 0.169;
    project.panels.front().parts.push_back(outer);
  }
  const auto two_faces = findings_of(project);
  CHECK(std::get<double>(finding_of(two_faces, "structural.racking").limit) ==
        Approx(2.0 * std::get<double>(weak.limit)));
}

TEST_CASE("The force on a fastener is that of the shear flow along a sheet") {
  Project project = braced_project();
  Properties& board = project.materials[kOsb].properties;
  replace(board, "Panel_Board", "ProductStandard", property_of("EN 636 plywood"));
  board.add("Panel_Board", "CharacteristicDensity", property_of(550.0));
  const auto findings = findings_of(project);
  const Finding& finding = finding_of(findings, "structural.sheathing_fixings");
  // 3 kN over two sheets: 1500·100/(1200·0.8) = 156.25 N.
  CHECK(std::get<double>(finding.value) == Approx(156.25));
  CHECK(finding.utilisation.value() == Approx(finding_of(findings, "structural.racking").utilisation.value()));
  REQUIRE(finding.tables.size() == 2);
  CHECK(finding.tables[0].rows.size() == 6);
  CHECK(finding.verdict == Verdict::pass);
}

TEST_CASE("A panel that does not brace says so") {
  Project infill = braced_project();
  Properties& properties = infill.panels.front().properties;
  replace(properties, "Pset_WallCommon", "LoadBearing", property_of(false));
  for (const char* load : {"PermanentLineLoad", "VariableLineLoad", "RackingLoad"}) {
    remove(properties, std::string("Panel_Structure.") + load);
  }
  Project unloaded = braced_project();
  replace(unloaded.panels.front().properties, "Panel_Structure", "RackingLoad", property_of(0.0));
  for (const Project& project : {infill, unloaded}) {
    const auto findings = findings_of(project);
    CHECK(finding_of(findings, "structural.racking").verdict == Verdict::information);
    CHECK(std::get<std::string>(finding_of(findings, "structural.racking").value) == "not part of the bracing");
    CHECK(finding_of(findings, "structural.sheathing_fixings").verdict == Verdict::information);
    CHECK(std::get<std::string>(finding_of(findings, "structural.sheathing_fixings").value) == "no racking load");
  }
}

TEST_CASE("Fasteners too near to an edge fail whatever their force") {
  struct Case {
    const char* property;
    double value;
    const char* reason;
  };
  for (const Case& bad : {Case{"EdgeDistance", 0.007, "distance from the edge of the sheet is not kept"},
                          Case{"EdgeDistance", 0.012, "distance from the edge of the stud is not kept"},
                          Case{"Spacing", 0.020, "spacing along the edge, least is not kept"},
                          Case{"Spacing", 0.160, "spacing along the edge, largest is not kept"},
                          Case{"Length", 0.030, "penetration into the timber is not kept"}}) {
    Project project = braced_project();
    replace(part_named(project, "nails").properties, "Panel_Fastener", bad.property, property_of(bad.value));
    const auto findings = findings_of(project);
    INFO(bad.reason);
    CHECK(finding_of(findings, "structural.sheathing_fixings").verdict == Verdict::fail);
    CHECK(finding_of(findings, "structural.sheathing_fixings").reason.find(bad.reason) == 0);
  }
}
