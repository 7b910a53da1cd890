#include <catch2/catch.hpp>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/basis/design_basis.h"
#include "plugins/structural/studs/stud_design.h"
#include "tests/structural/structural_tables.h"
#include "tests/support/cassette_settings.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// A barrier of category C1 at 1.1 m.
Panel barrier_panel() {
  Panel panel = cassette_project().panels.front();
  panel.properties.add("Panel_Structure", "BarrierLoadCategory", property_of("C1"));
  panel.properties.add("Panel_Structure", "BarrierHeight", property_of(1.1));
  return panel;
}

structural::BarrierAction action_on(const Panel& panel, const Settings& settings = {},
                                    const std::string& annex = "recommended") {
  return structural::read_barrier(panel, settings, structural_tables(), annex).value();
}

}  // namespace

TEST_CASE("A panel without a category or load is no barrier") {
  CHECK_FALSE(structural::read_barrier(cassette_project().panels.front(), {}, structural_tables(), "recommended"));
}

TEST_CASE("A panel that is stated to be no barrier is none") {
  Panel panel = cassette_project().panels.front();
  panel.properties.add("Panel_Structure", "BarrierLoadCategory", property_of("NONE"));
  CHECK_FALSE(structural::read_barrier(panel, {}, structural_tables(), "recommended"));
}

TEST_CASE("A barrier takes load, factors and duration of its category of use") {
  const auto action = action_on(barrier_panel());
  CHECK(action.missing.empty());
  CHECK(action.load.n_per_m == 500.0);
  CHECK(action.load.height_m == 1.1);
  CHECK(action.psi0 == 0.7);
  CHECK(action.psi2 == 0.6);
  CHECK(action.duration == "medium");
}

TEST_CASE("A given barrier load stands above the table, and the setting gives the height") {
  Panel panel = barrier_panel();
  panel.properties.add("Panel_Structure", "BarrierLineLoad", property_of(740.0));
  remove(panel.properties, "Panel_Structure.BarrierHeight");
  Settings settings;
  settings.set("structural.barrier_height_m", 1.2);
  const auto action = action_on(panel, settings, "UK");
  CHECK(action.missing.empty());
  CHECK(action.load.n_per_m == 740.0);
  CHECK(action.load.height_m == 1.2);
}

TEST_CASE("What a barrier lacks is named") {
  struct Case {
    const char* label;
    const char* property;
    std::optional<Property> value;
    const char* annex;
    const char* reason;
  };
  const std::vector<Case> cases{
      {"unknown category", "BarrierLoadCategory", property_of("X9"), "recommended",
       "no barrier load for category 'X9' of national annex 'recommended': give Panel_Structure.BarrierLineLoad"},
      {"annex without a table", "BarrierLoadCategory", property_of("C1"), "UK",
       "no barrier load for category 'C1' of national annex 'UK': give Panel_Structure.BarrierLineLoad"},
      {"no height", "BarrierHeight", std::nullopt, "recommended",
       "Panel_Structure.BarrierHeight or setting structural.barrier_height_m"},
      {"height above the panel", "BarrierHeight", property_of(3.0), "recommended",
       "Panel_Structure.BarrierHeight must be less than the height of the panel"},
      {"less than the category asks for", "BarrierLineLoad", property_of(499.0), "recommended",
       "Panel_Structure.BarrierLineLoad of 499 N/m (IfcPropertySingleValue, line 7) is less than the 500 N/m of "
       "category "
       "C1 (barrier_loads.csv, row 'recommended/C1' (EN 1991-1-1:2002 6.4 table 6.12 recommended value (from "
       "memory))): "
       "correct one of them"},
      {"negative height", "BarrierHeight", property_of(-1.1), "recommended",
       "height of the barrier load above the foot of the panel must be greater than zero (IfcPropertySingleValue, "
       "line 7)"}};
  for (const Case& bad : cases) {
    Panel panel = barrier_panel();
    remove(panel.properties, std::string("Panel_Structure.") + bad.property);
    if (bad.value) panel.properties.add("Panel_Structure", bad.property, *bad.value);
    const auto action = action_on(panel, {}, bad.annex);
    INFO(bad.label);
    REQUIRE_FALSE(action.missing.empty());
    CHECK(action.missing.front() == bad.reason);
  }
}

TEST_CASE("A barrier load as large as its category's stands, and one without a category is refused") {
  Panel panel = barrier_panel();
  panel.properties.add("Panel_Structure", "BarrierLineLoad", property_of(500.0));
  CHECK(action_on(panel).missing.empty());
  remove(panel.properties, "Panel_Structure.BarrierLoadCategory");
  CHECK(action_on(panel).missing ==
        std::vector<std::string>{
            "Panel_Structure.BarrierLoadCategory of a panel with BarrierLineLoad (EN 1991-1-1 table 6.12)"});
}

TEST_CASE("The design basis carries the barrier and the rule of combination, and names an unknown rule") {
  Project project = cassette_project();
  project.panels.front() = barrier_panel();
  project.panels.front().properties.add("Panel_Structure", "DesignWindPressure", property_of(1000.0));
  structural::PartsPressure wind;
  wind.characteristic_pa = Sourced<double>{1000.0, export_origin("IfcPropertySingleValue", 7)};
  Settings settings = cassette_settings();
  settings.set("structural.combination", std::string("6.10a and b"));
  const auto read = [&] {
    return structural::read_design_basis(project.panels.front(), project, settings, structural_tables(), wind);
  };
  const auto basis = read();
  CHECK(basis.missing.empty());
  REQUIRE(basis.balustrade.has_value());
  CHECK(basis.balustrade->n_per_m == 500.0);
  CHECK(basis.factors.rule == structural::UltimateRule::expressions_6_10a_and_b);
  CHECK(basis.factors.permanent_reduction == 0.85);
  settings.set("structural.combination", std::string("6.11"));
  CHECK(read().missing.front() == "setting structural.combination is '6.11': 6.10 or 6.10a and b");
}

TEST_CASE("A cripple stud that ends below the height of a barrier's load takes it at its top") {
  structural::DesignBasis basis;
  basis.balustrade = structural::LineLoad{500.0, 1.1};
  structural::VerticalMember cripple;
  cripple.bottom_m = 0.045;
  cripple.top_m = 0.855;
  cripple.tributary_width_m = 0.6;
  CHECK(structural::actions_on(cripple, basis).barrier_n == Approx(300.0));
  structural::StudDesign design;
  design.basis = basis;
  design.framing.members.push_back(cripple);
  structural::StudSystem system;
  system.foot_m = 0.045;
  system.length_m = 0.81;
  design.systems.push_back(system);
  CHECK(design.barrier(0, 450.0).at(0).at_m == Approx(0.81));
  // One above the load has none of it.
  cripple.bottom_m = 1.2;
  cripple.top_m = 2.9;
  CHECK(structural::actions_on(cripple, basis).barrier_n == 0.0);
}
