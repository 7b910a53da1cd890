// What racking presses into the studs at the ends of the sheathing, with their other load.
#include <catch2/catch.hpp>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/checks.h"
#include "plugins/structural/racking/racking_design.h"
#include "plugins/structural/wind/wind_checks.h"
#include "tests/structural/braced_panel.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/structural_tables.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::structural;

namespace {

struct Designs {
  StudDesign studs;
  RackingDesign racking;
};

Designs designs_of(const Project& boxes) {
  const Project project = with_drawn_members(boxes);
  const Panel& panel = project.panels.front();
  const Settings settings = braced_settings();
  const PanelWind wind =
      wind_pressure(panel, project, settings, structural_tables(), lay_out_facades(project, settings));
  Designs designs;
  designs.studs = design_studs(panel, project, settings, structural_tables(), wind.on_parts);
  designs.racking = design_racking(panel, project, settings, structural_tables(), designs.studs);
  add_racking_compression(designs.studs, designs.racking);
  return designs;
}

}  // namespace

TEST_CASE("Racking presses the end studs in every combination with wind, factored as wind") {
  const Designs designs = designs_of(braced_project());
  // Two sheets take 1.5 kN each: 1.5·3.0/1.2 = 3.75 kN with γ_Q; where they meet, pull and push are equal.
  std::size_t leading = 0;
  std::size_t accompanying = 0;
  for (const StudCase& result : designs.studs.cases) {
    if (result.racking_n == 0.0) continue;
    CHECK((result.member == 0 || result.member == designs.studs.framing.members.size() - 1));
    CHECK(result.forces.axial_n == Approx(result.combination.axial_n + result.racking_n));
    const bool leads = result.combination.name.find("imposed") == std::string::npos;
    CHECK(result.racking_n == Approx(leads ? 3750.0 : 0.6 * 3750.0));
    ++(leads ? leading : accompanying);
    const Section section = designs.studs.section(result.member);
    CHECK(result.stability.compression_stress_pa == Approx(result.forces.axial_n / section.area_m2()));
  }
  CHECK(leading == 2 * 2);       // both ends, wind with favourable and with unfavourable permanent load
  CHECK(accompanying == 2 * 1);  // both ends, imposed load leading with wind
}

TEST_CASE("A large racking load governs stability at an end stud and is shown") {
  Project project = braced_project();
  replace(project.panels.front().properties, "Panel_Structure", "RackingLoad", property_of(60e3));
  const auto findings = findings_as_drawn(project, braced_settings());
  const Finding& finding = finding_of(findings, "structural.stud_stability");
  CHECK(step_of(finding, "F_i,c,Ed") > 60.0);
  CHECK(finding.verdict == Verdict::fail);
}

TEST_CASE("Without a racking load studs carry none") {
  Project project = braced_project();
  replace(project.panels.front().properties, "Panel_Structure", "RackingLoad", property_of(0.0));
  for (const StudCase& result : designs_of(project).studs.cases) CHECK(result.racking_n == 0.0);
}

TEST_CASE("An edge of the sheathing without a stud is named") {
  Project project = braced_project();
  part_named(project, "right sheet").bounds->min.x = 1.4;
  const auto findings = findings_as_drawn(project, braced_settings());
  const Finding& finding = finding_of(findings, "structural.stud_stability");
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(
      finding.reason ==
      "the compression from racking, which is not known without a stud over the height of the panel under the edge of "
      "the sheathing at x = 1.400 m");
  CHECK(finding_of(findings, "structural.racking").reason ==
        "a stud over the height of the panel under the edge of the sheathing at x = 1.400 m");
}

TEST_CASE("Where racking is not known the stability of the studs is not either") {
  Project project = braced_project();
  remove(part_named(project, "nails").properties, "Panel_Fastener.Length");
  const auto findings = findings_as_drawn(project, braced_settings());
  const Finding& finding = finding_of(findings, "structural.stud_stability");
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason ==
        "the compression from racking, which is not known without Panel_Fastener.Length of 'nails' (length)");
}
