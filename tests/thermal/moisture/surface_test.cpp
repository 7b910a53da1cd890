#include "plugins/thermal/moisture/surface.h"

#include <catch2/catch.hpp>
#include <string>

#include "tests/thermal/heated_panel.h"
#include "tests/thermal/tables_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::thermal;

namespace {

Finding check(const HeatedPanel& model) {
  const auto transmittance =
      check_transmittance(model.project.panels.front(), model.project, model.settings, thermal_tables());
  return check_surface_temperature(model.project.panels.front(), model.settings, thermal_tables(), transmittance);
}

double limit_for(const char* jurisdiction, const char* use, const char* rooms) {
  HeatedPanel model;
  model.settings.set("project.jurisdiction", std::string(jurisdiction));
  model.settings.set("project.use", std::string(use));
  if (rooms != nullptr) model.settings.set("thermal.surface_factor_use", std::string(rooms));
  return std::get<double>(check(model).limit);
}

}  // namespace

TEST_CASE("the least temperature factor follows the use of the building and of its rooms") {
  CHECK(limit_for("England", "dwellings", nullptr) == 0.75);
  CHECK(limit_for("England", "office", nullptr) == 0.50);
  CHECK(limit_for("England", "school", "sports hall") == 0.80);
  CHECK(limit_for("Scotland", "hotel", "swimming pool") == 0.90);
  CHECK(limit_for("Germany", "office", nullptr) == 0.70);
  // Rooms with a limit count where the building's use has none.
  CHECK(limit_for("England", "assembly", "sports hall") == 0.80);
}

TEST_CASE("a use without a least temperature factor is named") {
  HeatedPanel model;
  model.settings.set("project.use", std::string("assembly"));
  const Finding finding = check(model);
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason ==
        "surface_factor_limits.csv holds no limit for 'assembly' in 'England' (settings project.jurisdiction, "
        "project.use, thermal.surface_factor_use)");
}
