// Fasteners by what they do, and places on the site.
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "core/api/support/fastener_kinds.h"
#include "core/api/support/site_place.h"

using namespace panel_dossier;

TEST_CASE("Fasteners are told by the words of their ObjectType, in either case") {
  struct Kind {
    std::string type;
    bool holds, lifts, ties;
  };
  for (const Kind& kind : std::vector<Kind>{{"BRACKET", true, false, false},
                                            {"angle bracket", true, false, false},
                                            {"Resin anchor", true, false, false},
                                            {"BOLT M12", true, false, false},
                                            {"LIFTING LOOP", false, true, false},
                                            {"lifting anchor", false, true, false},
                                            {"TIE_DOWN", false, false, true},
                                            {"Hold-down bracket", false, false, true},
                                            {"tie down", false, false, true},
                                            {"SCREW", false, false, false},
                                            {"", false, false, false}}) {
    Part part;
    part.kind = PartKind::fastener;
    part.object_type = kind.type;
    INFO(kind.type);
    CHECK(holds_panel(part) == kind.holds);
    CHECK(lifts_panel(part) == kind.lifts);
    CHECK(ties_down(part) == kind.ties);
    part.kind = PartKind::stud;
    CHECK_FALSE((holds_panel(part) || lifts_panel(part) || ties_down(part)));
  }
}

TEST_CASE("Fasteners come in the export's order") {
  Panel panel;
  for (const char* type : {"BRACKET", "SCREW", "ANCHOR"}) {
    Part part;
    part.kind = PartKind::fastener;
    part.object_type = type;
    panel.parts.push_back(part);
  }
  const std::vector<const Part*> found = fasteners_that(panel, holds_panel);
  REQUIRE(found.size() == 2);
  CHECK(found[0] == &panel.parts[0]);
  CHECK(found[1] == &panel.parts[2]);
}

TEST_CASE("The nearest of several places counts, and one without a coordinate is the one to be told") {
  Settings settings;
  settings.set("site.crane.x_m", 0.0);
  settings.set("site.crane.y_m", 0.0);
  settings.set("site.crane.further_places.0.x_m", 10.0);
  settings.set("site.crane.further_places.0.y_m", 0.0);
  CHECK(site_places(settings, "site.crane").size() == 2);
  CHECK(nearest_place(site_places(settings, "site.crane"), {4.9, 3.0, 0.0}).x_m->value == 0.0);
  CHECK(nearest_place(site_places(settings, "site.crane"), {5.1, 3.0, 0.0}).x_m->value == 10.0);
  // As near as the first: the first.
  CHECK(nearest_place(site_places(settings, "site.crane"), {5.0, 3.0, 0.0}).x_m->value == 0.0);
  settings.set("site.crane.further_places.1.x_m", 99.0);
  CHECK_FALSE(nearest_place(site_places(settings, "site.crane"), {0.0, 0.0, 0.0}).y_m);
  CHECK(site_places(Settings{}, "site.crane").size() == 1);
}

// The panel's x along the project's y: 3 m wide and 0.4 m thick, its middle 1.5 m along and 0.2 m outwards.
TEST_CASE("The middle of a panel's foot lies in the project's frame") {
  Panel panel;
  panel.width_m.value = 3.0;
  panel.thickness_m.value = 0.4;
  panel.frame.origin = {10.0, 20.0, 6.0};
  panel.frame.x_axis = {0.0, 1.0, 0.0};
  panel.frame.y_axis = {-1.0, 0.0, 0.0};
  const Vec3 middle = middle_of_foot(panel);
  CHECK(middle.x == Approx(9.8));
  CHECK(middle.y == Approx(21.5));
  CHECK(middle.z == Approx(6.0));
}
