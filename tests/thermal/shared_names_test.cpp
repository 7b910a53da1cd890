// Materials and layers are what they are, not what they are called.
#include <catch2/catch.hpp>
#include <vector>

#include "core/api/testing/findings.h"
#include "plugins/thermal/checks.h"
#include "tests/thermal/moisture/moisture_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

std::vector<Finding> checked(const MoistureModel& model) {
  return thermal::check_panel(model.project.panels.front(), model.project, model.settings, thermal_tables(),
                              detail_solver())
      .findings;
}

void give_one_name(MoistureModel& model) {
  for (Material& material : model.project.materials) material.name = "material";
  for (Layer& layer : model.panel().layers) layer.name = "layer";
}

void check_same_results(const std::vector<Finding>& named, const std::vector<Finding>& nameless) {
  REQUIRE(named.size() == nameless.size());
  for (std::size_t i = 0; i < named.size(); ++i) {
    INFO(named[i].check);
    CHECK(nameless[i].verdict == named[i].verdict);
    CHECK(nameless[i].value == named[i].value);
    CHECK(nameless[i].utilisation == named[i].utilisation);
  }
}

}  // namespace

TEST_CASE("Materials and layers that share a name keep their own figures") {
  MoistureModel model;
  const auto named = checked(model);
  REQUIRE(named.front().verdict != Verdict::not_assessed);
  give_one_name(model);
  check_same_results(named, checked(model));
}

TEST_CASE("A vapour control layer counts with its own resistance, whatever its name") {
  MoistureModel model;
  model.add_vapour_control(200000.0);
  model.settings.set("thermal.assumed_framing_fraction", 0.15);
  model.settings.set("thermal.assumed_framing_conductivity_w_per_mk", 0.13);
  const auto named = model.interstitial();
  REQUIRE(named.verdict != Verdict::not_assessed);
  const double s_d = step_of(named, "s_d,vcl");
  give_one_name(model);
  const auto nameless = model.interstitial();
  CHECK(nameless.verdict == named.verdict);
  CHECK(step_of(nameless, "s_d,vcl") == s_d);
}
