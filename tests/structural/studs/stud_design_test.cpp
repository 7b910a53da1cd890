// What is kept of the combinations of actions on a stud, against textbook formulas and against each combination.
#include "plugins/structural/studs/stud_design.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/api/testing/properties.h"
#include "plugins/structural/members/bearing_design.h"
#include "plugins/structural/wind/wind_checks.h"
#include "tests/structural/braced_panel.h"
#include "tests/structural/drawn_members.h"
#include "tests/structural/structural_tables.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::structural;

namespace {

StudDesign studs_of(const Project& boxes, const Settings& settings = cassette_settings()) {
  const Project project = with_drawn_members(boxes);
  const Panel& panel = project.panels.front();
  const PanelWind wind =
      wind_pressure(panel, project, settings, structural_tables(), lay_out_facades(project, settings));
  return design_studs(panel, project, settings, structural_tables(), wind.on_parts);
}

/// Persons of category C1 lean on the panel at 1.1 m, wind presses on it.
Project leaned_on(double barrier_n_per_m, double wind_pa) {
  Project project = cassette_project();
  Properties& properties = project.panels.front().properties;
  properties.add("Panel_Structure", "BarrierLoadCategory", property_of("C1"));
  properties.add("Panel_Structure", "BarrierLineLoad", property_of(barrier_n_per_m));
  properties.add("Panel_Structure", "BarrierHeight", property_of(1.1));
  properties.add("Panel_Structure", "DesignWindPressure", property_of(wind_pa));
  return project;
}

double share_under(const StudDesign& design, std::size_t member, const ServiceabilityCombination& loads) {
  const SpanDeflection deflection =
      span_deflection(design.systems[member], loads.line_load_n_per_m, design.barrier(member, loads.barrier_n),
                      design.bending_stiffness_nm2(member), design.shear_stiffness_n(member));
  return deflection.total_m() / deflection.span_m;
}

}  // namespace

TEST_CASE("The deflection that is kept is the largest of the characteristic combinations, whichever leads") {
  // Wind leads against a light barrier; against one of 5 kN/m persons lead, the second combination.
  std::vector<std::string> governing;
  for (const double barrier_n_per_m : {740.0, 5000.0}) {
    const StudDesign design = studs_of(leaned_on(barrier_n_per_m, 1000.0));
    REQUIRE(design.missing.empty());
    REQUIRE(design.deflections.size() == 5);
    for (const StudDeflection& kept : design.deflections) {
      const Actions actions = actions_on(design.framing.members[kept.member], design.basis);
      std::size_t characteristic = 0;
      for (const auto& loads : serviceability_combinations(actions, design.basis.factors)) {
        if (loads.kind == Serviceability::quasi_permanent) continue;
        ++characteristic;
        CHECK(share_under(design, kept.member, loads) <= design.span_ratio(kept) * (1.0 + 1e-12));
      }
      CHECK(characteristic == 2);
    }
    governing.push_back(design.deflections[1].combination.name);
  }
  CHECK(governing[0] != governing[1]);
}

TEST_CASE("Persons leaning part of the time creep, though wind does not") {
  const StudDesign design = studs_of(leaned_on(740.0, 1000.0));
  REQUIRE(design.missing.empty());
  const StudDeflection& kept = design.deflections[2];
  // ψ2 = 0.6 of category C (EN 1990 table A1.1), 0 of wind: P = 0.6·740·0.6 m = 266.4 N at b = 1.1 − 0.045 m of a span
  // of 2.91 m. Beam with a load off the middle: u_max = P·b·(L² − b²)^1.5/(9·√3·L·E·I), with the stiffness of the stud
  // and the sheets that work with it.
  const double load_n = 0.6 * 740.0 * 0.6;
  const double span_m = 2.91;
  const double near_m = 1.1 - 0.045;
  const double bending_m = load_n * near_m * std::pow(span_m * span_m - near_m * near_m, 1.5) /
                           (9.0 * std::sqrt(3.0) * span_m * design.bending_stiffness_nm2(2));
  CHECK(kept.quasi_permanent.barrier_n == Approx(load_n));
  CHECK(kept.quasi_permanent.line_load_n_per_m == 0.0);
  CHECK(kept.lasting.bending_m == Approx(bending_m).epsilon(1e-3));
  CHECK(design.final_m(kept) ==
        Approx(kept.span.total_m() + design.creep_factor(2) * kept.lasting.total_m()).epsilon(1e-12));
  CHECK(design.creep_factor(2) > 0.0);
}

TEST_CASE("Studs less than 100 mm wide and deep press on their rail like others") {
  Project project = cassette_project({.stud_width_m = 0.038, .stud_depth_m = 0.089});
  Properties& properties = project.panels.front().properties;
  properties.add("Panel_Structure", "DesignWindPressure", property_of(1000.0));
  const Project drawn = with_drawn_members(project);
  const StudDesign studs = studs_of(project);
  REQUIRE(studs.missing.empty());
  const BearingDesign bearing =
      design_bearing(drawn.panels.front(), drawn, cassette_settings(), structural_tables(), studs);
  CHECK(bearing.missing.empty());
  REQUIRE(bearing.cases.size() >= 5);
  for (const BearingCase& one : bearing.cases) {
    CHECK(one.contact.length_m == Approx(0.038));
    CHECK(one.contact.width_m == Approx(0.089));
    CHECK(one.stress_pa * effective_contact_length_m(one.contact) * 0.089 == Approx(one.combination.axial_n));
  }
}
