// Windows calculated from glazing, frame and edge, their limit, and what is missing.
#include "plugins/thermal/windows/window_check.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/thermal/checks.h"
#include "plugins/thermal/transmittance/heat_loss.h"
#include "tests/thermal/tables_support.h"
#include "tests/thermal/window_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Opening& add_detailed_window(HeatedPanel& model) {
  Opening& window = add_window(model.panel(), 0.6225, 1.1775, 1.0, 2.0, 1.4);
  put(window.filling_properties, "Panel_Window", "GlassTransmittance", 1.1);
  put(window.filling_properties, "Panel_Window", "FrameTransmittance", 1.4);
  put(window.filling_properties, "Panel_Window", "EdgeTransmittance", 0.05);
  put(window.filling_properties, "Panel_Window", "FrameWidth", 0.1);
  return window;
}

Finding check(const HeatedPanel& model) {
  return thermal::check_windows(model.project.panels.front(), model.settings, thermal_tables()).findings.at(0);
}

}  // namespace

TEST_CASE("glazing, frame and edge go before the declared U-value") {
  HeatedPanel model;
  add_detailed_window(model);
  // 0.555 m × 1.000 m with 0.1 m of frame: glazing 0.355 m × 0.8 m.
  const double expected = (0.284 * 1.1 + 0.271 * 1.4 + 2.31 * 0.05) / 0.555;
  const auto finding = check(model);
  CHECK(number_of(finding) == Approx(expected).epsilon(1e-9));
  CHECK(finding.verdict == Verdict::pass);
  HeatedPanel whole = panel_with_window();
  whole.panel().openings.front() = model.panel().openings.front();
  const auto all =
      thermal::check_panel(whole.panel(), whole.project, whole.settings, thermal_tables(), detail_solver()).findings;
  CHECK(finding_of(all, "thermal.heat_loss").reason == "");
  CHECK(value_of(finding_of(all, "thermal.heat_loss"), "windows_and_doors", "W/K") ==
        Approx(expected * 0.555).epsilon(1e-9));
}

TEST_CASE("the worst window decides and a window above the limit fails") {
  HeatedPanel model;
  add_window(model.panel(), 0.1, 0.4, 1.0, 2.0, 1.2);
  CHECK(number_of(check(model)) == 1.2);
  add_window(model.panel(), 0.7, 1.1, 1.0, 2.0, 1.7);
  const auto finding = check(model);
  CHECK(finding.verdict == Verdict::fail);
  CHECK(number_of(finding) == 1.7);
  CHECK(std::get<double>(finding.limit) == 1.6);
}

TEST_CASE("a door is held against its own limit and only where there is one") {
  HeatedPanel model;
  const auto findings = [&] { return thermal::check_doors(model.panel(), model.settings, thermal_tables()).findings; };
  CHECK(findings().empty());
  CHECK(thermal::check_doors(model.panel(), model.settings, thermal_tables()).not_applicable.at(0).reason ==
        "the panel has no door");
  Opening& door = add_window(model.panel(), 0.6225, 1.1775, 0.0, 2.0, std::nullopt);
  door.filling_entity = "IfcDoor";
  CHECK(finding_of(findings(), "thermal.door_u_value").reason == "'W-01' has no Pset_DoorCommon.ThermalTransmittance");
  put(door.filling_properties, "Pset_DoorCommon", "ThermalTransmittance", 1.7);
  const Finding over = finding_of(findings(), "thermal.door_u_value");
  CHECK(over.verdict == Verdict::fail);
  CHECK(std::get<double>(over.limit) == 1.6);
  CHECK(over.basis == Basis::declared);
  door.filling_properties = {};
  put(door.filling_properties, "Pset_DoorCommon", "ThermalTransmittance", 1.6);
  CHECK(finding_of(findings(), "thermal.door_u_value").verdict == Verdict::pass);
}

TEST_CASE("a panel without windows says so") {
  HeatedPanel model;
  const CheckOutcome outcome = thermal::check_windows(model.panel(), model.settings, thermal_tables());
  CHECK(outcome.findings.empty());
  CHECK(outcome.not_applicable.at(0).reason == "the panel has no window");
}

TEST_CASE("a window with only some of its values is not assessed and each is named") {
  struct Case {
    const char* name;
    double value;
    const char* reason;
  };
  const Case cases[] = {
      {"GlassTransmittance", 0.0, "U-value of the glazing of 'W-01' must be greater than zero"},
      {"EdgeTransmittance", -0.1, "Panel_Window.EdgeTransmittance of 'W-01' must not be below 0"},
      {"FrameWidth", 0.3, "Panel_Window.FrameWidth of 'W-01' leaves no glazing"},
  };
  for (const Case& c : cases) {
    INFO(c.name);
    HeatedPanel model;
    Opening& window = add_window(model.panel(), 0.6225, 1.1775, 1.0, 2.0, 1.2);
    put(window.filling_properties, "Panel_Window", c.name, c.value);
    for (const auto& [name, value] : {std::pair{"GlassTransmittance", 1.1}, std::pair{"FrameTransmittance", 1.4},
                                      std::pair{"EdgeTransmittance", 0.05}, std::pair{"FrameWidth", 0.1}}) {
      put(window.filling_properties, "Panel_Window", name, value);  // the first of a name is kept
    }
    CHECK(check(model).verdict == Verdict::not_assessed);
    CHECK(check(model).reason.find(c.reason) == 0);
  }
  HeatedPanel model;
  Opening& window = add_window(model.panel(), 0.6225, 1.1775, 1.0, 2.0, 1.2);
  put(window.filling_properties, "Panel_Window", "GlassTransmittance", 1.1);
  CHECK(check(model).reason ==
        "'W-01' has no Panel_Window.FrameTransmittance; 'W-01' has no Panel_Window.EdgeTransmittance; 'W-01' has no "
        "Panel_Window.FrameWidth");
}

// EN ISO 10077-1:2017, 6.4.1, worked by hand for the size that EN 14351-1 tests, 1.23 m × 1.48 m, with 0.11 m of frame:
// glazing 1.01 × 1.26 = 1.2726 m², frame 0.5478 m², edge 4.54 m; (1.2726 · 1.1 + 0.5478 · 1.4 + 4.54 · 0.05) / 1.8204
// = 2.39378 / 1.8204 = 1.31497. Tolerance: the hand calculation's last digit.
TEST_CASE("a window of the standard's test size gives the U-value worked out by hand") {
  thermal::WindowParts parts = thermal::single_pane_window(1.23, 1.48, 0.11);
  CHECK(parts.glass_area_m2 == Approx(1.2726));
  CHECK(parts.frame_area_m2 == Approx(0.5478));
  CHECK(parts.edge_length_m == Approx(4.54));
  parts.glass_u_w_per_m2k = 1.1;
  parts.frame_u_w_per_m2k = 1.4;
  parts.edge_psi_w_per_mk = 0.05;
  CHECK(thermal::window_transmittance(parts) == Approx(1.31497).margin(0.00001));
}

// In its own size the window has 1.4546 W/(m²·K), and in 1.48 m by 2.18 m, of which 2.5344 m² are glazing, 1.2653.
TEST_CASE("a declared U-value of a window lies within 0.1 of what its parts give in any size of test") {
  const auto declaring = [](double declared) {
    HeatedPanel model;
    model.settings.set("thermal.design_window_u_w_per_m2k", 3.0);
    replace(add_detailed_window(model).filling_properties, "Pset_WindowCommon", "ThermalTransmittance",
            property_of(declared));
    return check(model).reason.find("the declared U-value of") == std::string::npos;
  };
  CHECK(declaring(1.551));
  CHECK_FALSE(declaring(1.558));
  CHECK(declaring(1.169));
  CHECK_FALSE(declaring(1.161));
}

TEST_CASE("any one of a window's parts asks for the others, whatever its declared U-value") {
  for (const char* name : {"GlassTransmittance", "FrameTransmittance", "EdgeTransmittance", "FrameWidth"}) {
    INFO(name);
    HeatedPanel model;
    model.settings.set("thermal.design_window_u_w_per_m2k", 3.0);
    put(add_window(model.panel(), 0.6225, 1.1775, 1.0, 2.0, 1.2).filling_properties, "Panel_Window", name, 0.05);
    const Finding found = check(model);
    CHECK(found.verdict == Verdict::not_assessed);
    CHECK(found.reason.find(std::string(" has no Panel_Window.") + name) == std::string::npos);
    CHECK_THAT(found.reason, Catch::Contains(" has no Panel_Window."));
  }
}
