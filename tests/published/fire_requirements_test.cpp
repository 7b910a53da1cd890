// National rules on fire resistance and external walls against the rows of their tables. Values from memory.
#include <catch2/catch.hpp>
#include <filesystem>

#include "core/api/testing/cassette_panel.h"
#include "plugins/fire/evidence/requirement.h"
#include "plugins/fire/facade/external_wall_check.h"
#include "plugins/fire/facade/heights_and_boundary.h"

using namespace panel_dossier;
using namespace panel_dossier::fire;
using namespace panel_dossier::testing;

namespace {

const Tables& tables() {
  static const Tables read(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins/fire/data");
  return read;
}

/// What the tables ask of a wall, as text; `none` where they ask nothing, else what is missing.
std::string asked(const char* jurisdiction, const char* use, double height_m, bool sprinklers, double boundary_m,
                  bool load_bearing) {
  const Project project = cassette_project();
  Settings settings;
  settings.set("project.jurisdiction", std::string(jurisdiction));
  settings.set("project.use", std::string(use));
  settings.set("building.top_storey_height_m", height_m);
  settings.set("building.sprinklers", sprinklers);
  settings.set("building.boundary_distance_m", boundary_m);
  const auto found = table_requirement(project.panels.front(), project, settings, tables(), load_bearing);
  if (found.nothing_asked) return "none";
  return found.asked ? class_text(*found.asked, "REI") : found.missing;
}

}  // namespace

TEST_CASE("Periods in England are those of Approved Document B volume 2") {
  // Approved Document B vol. 2, 2019 edition as amended, table B4: office without sprinklers 30, 60 and 90 min up to 5,
  // 18 and 30 m; with sprinklers 30, 30, 60, and 120 above 30 m; assembly 60, 60, 90 and 30, 60, 60, 120; table B3 item
  // 5: within 1 m of the boundary R, E and I of that from each side; beyond it 15 min of I, from inside. From memory.
  CHECK(asked("England", "office", 5.0, false, 0.5, true) == "REI 30 (i↔o)");
  CHECK(asked("England", "office", 5.1, false, 0.5, true) == "REI 60 (i↔o)");
  CHECK(asked("England", "office", 18.0, true, 0.5, true) == "REI 30 (i↔o)");
  CHECK(asked("England", "office", 30.0, false, 0.5, true) == "REI 90 (i↔o)");
  CHECK(asked("England", "office", 31.0, true, 0.5, true) == "REI 120 (i↔o)");
  CHECK(asked("England", "healthcare", 7.2, false, 6.0, false) == "EI 15 / E 60 (i→o)");
  CHECK(asked("England", "healthcare", 7.2, false, 6.0, true) == "REI 15 / RE 60 (i→o)");
  CHECK(asked("England", "shop", 4.0, true, 0.99, false) == "EI 30 (i↔o)");
  CHECK(asked("England", "industrial", 20.0, false, 0.0, false) == "EI 120 (i↔o)");
}

TEST_CASE("A tall building without sprinklers has no period in England") {
  CHECK(asked("England", "office", 30.1, false, 6.0, true).starts_with("the tables hold no period for this use"));
}

TEST_CASE("Periods in Germany are those of the model building code") {
  // Musterbauordnung 2002 as amended, section 27(1): 30 min up to 7 m, 60 min up to 13 m with units up to 400 m², else
  // 90 min; section 28: external walls 30 min from building class 4. From memory.
  CHECK(asked("Germany", "office", 7.0, false, 3.0, true) == "R 30 (i→o)");
  CHECK(asked("Germany", "office", 7.0, false, 3.0, false) == "none");
  CHECK(asked("Germany", "office", 12.0, false, 3.0, true) == "REI 30 / R 90 (i→o)");
  CHECK(asked("Germany", "office", 12.0, false, 3.0, false) == "EI 30 (i→o)");
  CHECK(asked("Germany", "office", 12.0, false, 2.4, false).starts_with("the tables hold no row for an external wall"));
}

TEST_CASE("External wall rules in England follow regulation 7 and table 12.1") {
  // Building Regulations 2010 regulation 7(2): A2-s1,d0 of every material from 18 m where people sleep; Approved
  // Document B vol. 2 table 12.1: assembly within 10 m of the ground C-s3,d2, 1 m or more from the boundary; nothing of
  // offices below 18 m there; 12.6: insulation A2-s3,d2 from 18 m. From memory.
  const auto rule = [](const char* group, double top_m, double panel_top_m) {
    return find_external_wall_rule(tables(), "England", group, top_m, std::pair(panel_top_m - 3.0, panel_top_m))
        .value();
  };
  CHECK(rule("sleeping", 18.0, 20.0).scope == "all materials");
  CHECK(rule("sleeping", 18.0, 20.0).far == "A2-s1,d0");
  CHECK(rule("sleeping", 11.0, 12.0).near == "A2-s1,d0");
  CHECK(rule("assembly", 7.2, 9.9).far == "C-s3,d2");
  CHECK(rule("assembly", 7.2, 13.0).far == "none");
  CHECK(rule("other", 17.9, 17.0).far == "none");
  CHECK(rule("other", 18.0, 17.0).insulation == "A2-s3,d2");
}
