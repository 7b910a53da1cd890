// structural.wind_pressure by zones, on a building of 24 m by 12 m by 10 m.
#include <catch2/catch.hpp>
#include <functional>
#include <limits>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/structural/wind/wind_checks.h"
#include "tests/structural/structural_tables.h"
#include "tests/structural/wind/wind_box.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Finding wind_on(const std::string& mark, const Project& project, const Settings& settings = box_settings()) {
  return structural::wind_pressure(panel_marked(project, mark), project, settings, structural_tables(),
                                   structural::lay_out_facades(project, settings))
      .finding;
}

Finding wind_of_project(const Project& project, const Settings& settings) {
  std::vector<PanelFindings> findings;
  for (const Panel& panel : project.panels) findings.push_back({&panel, {wind_on(panel.mark, project, settings)}});
  return structural::project_wind_pressure(project, findings, settings, structural::lay_out_facades(project, settings));
}

/// Rows `wind zone` of the panel's table.
std::string zones_on(const Finding& finding) {
  std::string zones;
  for (const auto& row : finding.tables.at(0).rows) {
    zones += std::get<std::string>(row[0]) + " " + std::get<std::string>(row[1]) + ", ";
  }
  return zones;
}

constexpr double kPeak_pa = 540.8;  // category III, 10 m, 22.5 m/s
const double kLogOfNine = 0.95424;  // panels of 3 m by 3 m

}  // namespace

TEST_CASE("A panel at the corner has zone A of the wind along its façade") {
  const Finding finding = wind_on("N8", box_project());
  // e = min(12; 20) = 12: A up to 2.4 m, B up to 12 m, C beyond. N8 is the first from the left seen from outside.
  CHECK(zones_on(finding) ==
        "onto the façade D, onto the far side E, from the left A, from the left B, from the right C, ");
  CHECK(step_of(finding, "e") == Approx(12.0));
  // c_pe,A = -1.4 + 0.2·log10(9) = -1.2092; with c_pi = +0.2: w = -1.4092·540.8.
  CHECK(step_of(finding, "w_out") == Approx(-(1.4 - 0.2 * kLogOfNine + 0.2) * kPeak_pa).epsilon(0.001));
  CHECK(std::get<double>(finding.value) == Approx(1.4092 * kPeak_pa).epsilon(0.001));
  CHECK(step_of(finding, "w_1") == Approx(1.6 * kPeak_pa).epsilon(0.001));
  CHECK(std::get<double>(finding.tables[0].rows[2][2]) == Approx(80.0));
}

TEST_CASE("Windward pressure takes the ratio of height to depth and internal suction") {
  const Finding finding = wind_on("N4", box_project());
  // h/d = 10/12: c_pe,10 = 0.7 + 0.1·(0.8333 - 0.25)/0.75 = 0.7778, c_pe,1 = 1.0; area 9 m².
  const double external = 1.0 - (1.0 - 0.77778) * kLogOfNine;
  CHECK(step_of(finding, "w_in") == Approx((external + 0.3) * kPeak_pa).epsilon(0.001));
}

TEST_CASE("A panel in the middle of the long façade has zones B and C only") {
  const Finding finding = wind_on("N5", box_project());
  CHECK(zones_on(finding) == "onto the façade D, onto the far side E, from the left B, from the right C, ");
  // The windward pressure of 1.088·q_p outweighs the suction of zone B, -(0.8 + 0.3·0.046 + 0.2) = -1.014.
  CHECK(std::get<double>(finding.value) == Approx(step_of(finding, "w_in")));
}

TEST_CASE("Both corners of the short façade have zone A") {
  // The façade is 12 m long, b = 24 m: e = min(24; 20) = 20, A up to 4 m, B beyond.
  CHECK(zones_on(wind_on("E1", box_project())) ==
        "onto the façade D, onto the far side E, from the left B, from the right A, ");
  CHECK(zones_on(wind_on("E2", box_project())) ==
        "onto the façade D, onto the far side E, from the left B, from the right A, from the right B, ");
}

TEST_CASE("Internal pressure coefficients of the settings replace those of the note") {
  Settings settings = box_settings();
  settings.set("structural.wind.internal_pressure_maximum", 0.0);
  settings.set("structural.wind.internal_pressure_minimum", 0.0);
  CHECK(step_of(wind_on("N8", box_project(), settings), "w_out") ==
        Approx(-(1.4 - 0.2 * kLogOfNine) * kPeak_pa).epsilon(0.001));
  settings.set("structural.wind.internal_pressure_minimum", 0.5);
  CHECK(wind_on("N8", box_project(), settings).reason ==
        "setting structural.wind.internal_pressure_minimum must not exceed internal_pressure_maximum");
}

TEST_CASE("Of a tall building the lower strip has the lower windward pressure") {
  Settings settings = box_settings();
  settings.set("building.height_m", 40.0);
  Project project = box_project();
  const Finding low = wind_on("E3", project, settings);
  CHECK(std::get<double>(low.tables[0].rows[0][3]) == Approx(12.0));
  for (Panel& panel : project.panels) panel.frame.origin.z = 10.5;
  const Finding split = wind_on("E3", project, settings);
  // h > 2·b: strips end at 12, 20, 28 and 40 m; the panel reaches from 10.5 m to 13.5 m.
  CHECK(std::get<double>(split.tables[0].rows[0][2]) == Approx(50.0));
  CHECK(std::get<double>(split.tables[0].rows[1][3]) == Approx(20.0));
  CHECK(std::get<double>(split.tables[0].rows[1][7]) > std::get<double>(split.tables[0].rows[0][7]));
}

TEST_CASE("Where the export does not show where the panels stand they are taken to reach over the rest") {
  Project project = box_project();
  std::erase_if(project.panels, [](const Panel& panel) { return panel.mark != "N4" && panel.mark != "N5"; });
  Settings settings = box_settings();
  settings.set("building.width_m", kBoxWidth_m);
  settings.set("building.depth_m", kBoxDepth_m);
  const Finding finding = wind_on("N4", project, settings);
  CHECK(zones_on(finding).find("from the right A") != std::string::npos);
  CHECK(finding.notes.at(1).find("leave 18.00 m of the façade open") != std::string::npos);
}

TEST_CASE("Missing or contradicting sizes and places are named and nothing is calculated") {
  struct Case {
    const char* label;
    std::function<void(Project&, Settings&)> spoil;
    const char* reason;
  };
  const std::vector<Case> cases{
      {"one side and no size",
       [](Project& p, Settings&) { std::erase_if(p.panels, [](const Panel& one) { return one.mark[0] != 'N'; }); },
       "setting building.width_m (size of the building along the project's x axis; panels stand on 1 of its 4 sides"},
      {"size too small", [](Project&, Settings& s) { s.set("building.width_m", 20.0); },
       "panels reach over 24.00 m, more than setting building.width_m of 20.00 m"},
      {"negative size", [](Project&, Settings& s) { s.set("building.depth_m", -12.0); },
       "size of the building along the project's y axis must be greater than zero"},
      {"negative building height", [](Project&, Settings& s) { s.set("building.height_m", -10.0); },
       "height of the building must be greater than zero (setting 'building.height_m')"},
      {"below ground", [](Project&, Settings& s) { s.set("building.ground_level_m", 5.0); },
       "the top of the panel is -2.00 m above ground at 5.00 m (setting 'building.ground_level_m')"},
      {"no ground", [](Project& p, Settings&) { p.storeys.clear(); },
       "setting building.ground_level_m (no storey has an elevation)"},
      {"outside not known", [](Project& p, Settings&) { p.panels.front().outside_known = false; },
       "the façade of the panel"},
      {"place not finite",
       [](Project& p, Settings&) { p.panels.front().frame.origin.z = std::numeric_limits<double>::quiet_NaN(); },
       "placement and height of the panel"},
      {"askew",
       [](Project& p, Settings&) {
         p.panels.push_back(box_panel("X", 3.0, {12.0, 6.0, 0.0}, {0.6, 0.8, 0.0}));
       },
       "the façades are not the sides of one rectangle"},
      {"too slender", [](Project&, Settings& s) { s.set("building.height_m", 61.0); },
       "the building is more than 5 times as high as deep"},
      {"inner panel",
       [](Project& p, Settings&) {
         replace(p.panels.front().properties, "Pset_WallCommon", "IsExternal", property_of(false));
       },
       "Panel_Structure.DesignWindPressure (the panel is not external"},
      {"unknown procedure", [](Project&, Settings& s) { s.set("structural.wind.procedure", std::string("mine")); },
       "setting structural.wind.procedure is 'mine'"},
      {"impossible probability", [](Project&, Settings& s) { s.set("structural.wind.annual_probability", 0.0); },
       "setting structural.wind.annual_probability must be above 0"}};
  for (const Case& bad : cases) {
    Project project = box_project();
    Settings settings = box_settings();
    bad.spoil(project, settings);
    const Finding finding = wind_on("N1", project, settings);
    INFO(bad.label << ": " << finding.reason);
    CHECK(finding.verdict == Verdict::not_assessed);
    CHECK(finding.reason.find(bad.reason) == 0);
  }
}

TEST_CASE("Beside a given pressure stands that of the zones, which contradicts one that is lower by more than 5 %") {
  const double by_zones_pa = std::get<double>(wind_on("E1", box_project()).value);
  const double on_parts_pa = step_of(wind_on("E1", box_project()), "w_1");
  struct Case {
    double given_pa;
    const char* note;
  };
  for (const Case& given :
       {Case{0.951 * by_zones_pa, "below that of the zones for a loaded area of 1 m²"},
        Case{on_parts_pa - 1.0, "below that of the zones for a loaded area of 1 m²"}, Case{on_parts_pa, ""}}) {
    Project project = box_project();
    for (Panel& panel : project.panels) {
      if (panel.mark == "E1") {
        panel.properties.add("Panel_Structure", "DesignWindPressure", property_of(given.given_pa));
      }
    }
    const Finding finding = wind_on("E1", project);
    CHECK(std::get<double>(finding.value) == given.given_pa);
    CHECK(step_of(finding, "w_z") == by_zones_pa);
    CHECK(step_of(finding, "w_z,1") == on_parts_pa);
    // Checks of members read w_1 and must not meet it here.
    CHECK_THROWS_AS(step_of(finding, "w_1"), std::out_of_range);
    CHECK(finding.notes.size() == (*given.note == '\0' ? 1 : 2));
    if (finding.notes.size() > 1) CHECK(finding.notes[1].find(given.note) != std::string::npos);
  }
  Project low = box_project();
  for (Panel& panel : low.panels) {
    panel.properties.add("Panel_Structure", "DesignWindPressure", property_of(0.949 * by_zones_pa));
  }
  CHECK(wind_on("E1", low).verdict == Verdict::not_assessed);
}

TEST_CASE("A given pressure stands alone where the zones are not known, and a parapet is noted") {
  Project project = box_project();
  for (Panel& panel : project.panels) {
    panel.properties.add("Panel_Structure", "DesignWindPressure", property_of(900.0));
    panel.frame.origin.z = 8.0;
  }
  const Finding high = wind_on("N1", project);
  REQUIRE(high.notes.size() >= 2);
  CHECK(high.notes.back().find("The panel stands 1.00 m above the building's height") == 0);
  const Finding alone = wind_on("N1", project, without(box_settings(), "structural.wind.terrain_category"));
  CHECK(alone.steps.size() == 1);
  REQUIRE(alone.notes.size() == 2);
  CHECK(alone.notes.back() ==
        "Not compared with the zones of EN 1991-1-4 7.2.2, which cannot be worked out without: setting "
        "structural.wind.terrain_category (0, I, II, III or IV).");
}

TEST_CASE("The zones' lines stay outside the panels and the drawing tells D and E") {
  const Drawing drawing = wind_of_project(box_project(), box_settings()).drawings.front();
  for (const DrawnLine& line : drawing.lines) {
    const double x_m = (line.from.x + line.to.x) / 2.0;
    const double z_m = (line.from.y + line.to.y) / 2.0;
    if (x_m > 0.1 && x_m < kBoxWidth_m - 0.1) CHECK_FALSE((z_m > 0.1 && z_m < 9.9));
  }
  REQUIRE(drawing.texts.size() == 2);
  CHECK(drawing.texts[0].text == "Wind onto this façade: zone D on all of it.");
  CHECK(drawing.texts[1].text == "Wind onto the far side: zone E on all of it.");
}

TEST_CASE("The project's pressure is the largest of its panels and draws every façade") {
  const Project project = box_project();
  const Finding finding = wind_of_project(project, box_settings());
  CHECK(finding.verdict == Verdict::information);
  CHECK(finding.panel.empty());
  // The corner panels of the short sides are the smallest, so theirs is the largest coefficient.
  CHECK(std::get<double>(finding.value) == std::get<double>(wind_on("E1", project).value));
  REQUIRE(finding.drawings.size() == 4);
  CHECK(finding.drawings.front().polygons.size() == 8);
  // A, B and C above and below, and the height.
  CHECK(finding.drawings.front().dimensions.size() == 7);
  CHECK(finding.drawings.front().dimensions.front().text == "A 2.40 m");
  const auto& rows = finding.tables.at(0).rows;
  REQUIRE(rows.size() == project.panels.size());
  for (std::size_t i = 1; i < rows.size(); ++i) CHECK(std::get<double>(rows[i][3]) <= std::get<double>(rows[i - 1][3]));
}

TEST_CASE("A project without any wind pressure is not assessed") {
  const Finding finding =
      wind_of_project(box_project(), without(box_settings(), "structural.wind.basic_velocity_m_per_s"));
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.drawings.empty());
}
