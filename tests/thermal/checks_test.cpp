#include "plugins/thermal/checks.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <optional>
#include <string>

#include "core/api/testing/findings.h"
#include "plugins/thermal/junctions/linear_transmittance.h"
#include "plugins/thermal/transmittance/heat_loss.h"
#include "plugins/thermal/transmittance/transmittance.h"
#include "tests/thermal/tables_support.h"
#include "tests/thermal/window_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

std::vector<Finding> check(const HeatedPanel& model) {
  return thermal::check_panel(model.project.panels.front(), model.project, model.settings, thermal_tables(),
                              detail_solver())
      .findings;
}

/// Those that rest on the panels' values.
std::vector<Finding> totals_of(const Project& project, const std::vector<PanelFindings>& panels,
                               const Settings& settings) {
  return {thermal::average_u_value(project, panels, settings, thermal_tables()),
          thermal::total_heat_loss(project, panels)};
}

}  // namespace

TEST_CASE("every thermal finding can be followed: inputs with origin, steps, clause") {
  const auto findings = check(panel_with_window());
  REQUIRE(findings.size() >= 7);
  for (const Finding& finding : findings) {
    INFO(finding.check);
    CHECK(std::holds_alternative<double>(finding.value));
    CHECK_FALSE(finding.inputs.empty());
    CHECK_FALSE(finding.steps.empty());
    CHECK_FALSE(finding.clause.empty());
    CHECK_FALSE(finding.notes.empty());
    for (const Input& input : finding.inputs) CHECK(describe(input.origin).size() > 3);
  }
}

TEST_CASE("heat loss adds windows and junctions to the net area without their timber") {
  const HeatedPanel model = panel_with_window();
  const auto findings = check(model);
  const Finding& loss = finding_of(findings, "thermal.heat_loss");
  const double junctions = number_of(finding_of(findings, "thermal.linear_transmittance"));
  CHECK(step_of(loss, "U") < number_of(finding_of(findings, "thermal.u_value")));
  CHECK(number_of(loss) == Approx(step_of(loss, "U") * (6.48 - 0.555) + 1.2 * 0.555 + junctions).epsilon(1e-12));
}

TEST_CASE("the plain area of a panel whose junctions hold no timber has the U-value of the panel") {
  const auto findings = check(HeatedPanel());
  CHECK(number_of(finding_of(findings, "thermal.heat_loss")) ==
        Approx(number_of(finding_of(findings, "thermal.u_value")) * 6.48).epsilon(1e-12));
}

TEST_CASE("heat loss names a window without U-value and an opening without window") {
  HeatedPanel model = panel_with_window(std::nullopt);
  CHECK(finding_of(check(model), "thermal.heat_loss").reason == "'W-01' has no Pset_WindowCommon.ThermalTransmittance");
  model.panel().openings.front().filling_entity.clear();
  CHECK(finding_of(check(model), "thermal.heat_loss").reason.find("opening 'O-01' has no window or door") !=
        std::string::npos);
}

TEST_CASE("heat loss and junctions are not assessed while a setting of a detail is missing") {
  HeatedPanel model;
  add_window(model.panel(), 0.6225, 1.1775, 1.0, 2.0, 1.2);
  const auto findings = check(model);
  for (const char* id : {"thermal.heat_loss", "thermal.linear_transmittance", "thermal.junction_temperature_factor"}) {
    CHECK(finding_of(findings, id).verdict == Verdict::not_assessed);
    CHECK(finding_of(findings, id).reason.find("thermal.") != std::string::npos);
  }
}

TEST_CASE("details are drawn with isotherms only between a warm inside and a cold outside") {
  const HeatedPanel model = panel_with_window();
  const auto drawn_with = [&](const char* withheld, double internal_c) {
    HeatedPanel changed = model;
    changed.settings.set("thermal.internal_temperature_c", internal_c);
    changed.settings.set("thermal.external_temperature_c", 0.0);
    if (withheld != nullptr) changed.settings.withhold(withheld, "is not believed");
    const std::vector<Finding> of_panel = check(changed);
    const std::vector<PanelFindings> panels{{&changed.project.panels.front(), of_panel}};
    const Finding lines =
        thermal::register_junctions(changed.project, panels, changed.settings, thermal_tables(), detail_solver());
    const bool is_told = std::any_of(lines.notes.begin(), lines.notes.end(),
                                     [](const std::string& note) { return note.starts_with("No isotherms: "); });
    CHECK(is_told == lines.drawings.empty());
    return !lines.drawings.empty();
  };
  CHECK(drawn_with(nullptr, 20.0));
  CHECK_FALSE(drawn_with(nullptr, 0.0));
  CHECK_FALSE(drawn_with("thermal.internal_temperature_c", 20.0));
  CHECK_FALSE(drawn_with("thermal.external_temperature_c", 20.0));
}

TEST_CASE("the temperature factor is that of the plain area with its own surface resistance") {
  HeatedPanel model;
  const auto findings = check(model);
  const Finding& factor = finding_of(findings, "thermal.surface_temperature_factor");
  CHECK(factor.verdict == Verdict::pass);
  CHECK(number_of(factor) == Approx(1.0 - step_of(factor, "U") * 0.25));
  CHECK(step_of(factor, "f_Rsi,min") < number_of(factor));
}

TEST_CASE("checks that rest on the U-value say why they have none") {
  HeatedPanel model;
  model.project.materials[model.wool].properties = {};
  const auto findings = check(model);
  for (const char* id : {"thermal.heat_loss", "thermal.surface_temperature_factor"}) {
    CHECK(finding_of(findings, id).verdict == Verdict::not_assessed);
    CHECK(finding_of(findings, id).reason ==
          "thermal.u_value is not assessed: material 'mineral wool' has no Pset_MaterialThermal.ThermalConductivity");
  }
}

TEST_CASE("without a limit the U-value is still there for the totals") {
  HeatedPanel model;
  model.settings = {};
  model.settings.set("thermal.air_void_level", 0.0);
  const auto findings = check(model);
  const Finding& u = finding_of(findings, "thermal.u_value");
  CHECK(u.verdict == Verdict::not_assessed);
  CHECK(std::holds_alternative<double>(u.value));
  CHECK(std::holds_alternative<double>(finding_of(findings, "thermal.heat_loss").value));
}

TEST_CASE("the project's average weighs panels by their net area") {
  HeatedPanel model = panel_with_window();
  Panel second = model.panel();
  second.mark = "P-02";
  second.layers[1].material = model.timber;
  model.panel() = HeatedPanel().panel();
  model.project.panels.push_back(second);
  std::vector<PanelFindings> all;
  for (const Panel& panel : model.project.panels) {
    all.push_back(
        {&panel,
         thermal::check_panel(panel, model.project, model.settings, thermal_tables(), detail_solver()).findings});
  }
  const auto totals = totals_of(model.project, all, model.settings);
  const double u1 = number_of(all[0].findings[0]);
  const double u2 = number_of(all[1].findings[0]);
  // Sums are kept to millionths of a unit, so the average of two panels is good to about 1e-7.
  CHECK(number_of(finding_of(totals, "thermal.u_value")) == Approx((u1 * 6.48 + u2 * 5.925) / 12.405).margin(1e-6));
  CHECK(number_of(finding_of(totals, "thermal.heat_loss")) ==
        Approx(number_of(finding_of(all[0].findings, "thermal.heat_loss")) +
               number_of(finding_of(all[1].findings, "thermal.heat_loss")))
            .margin(2e-6));
}

TEST_CASE("a panel without a value leaves the project without a total and is named") {
  HeatedPanel model;
  model.project.materials[model.wool].properties = {};
  const std::vector<PanelFindings> all{{&model.project.panels.front(), check(model)}};
  const auto totals = totals_of(model.project, all, model.settings);
  for (const Finding& total : totals) {
    CHECK(total.verdict == Verdict::not_assessed);
    CHECK(total.reason.find("1 panel has no " + total.check + ": P-01") == 0);
  }
}

TEST_CASE("a project without panels has no totals") {
  Project project;
  for (const Finding& total : totals_of(project, {}, {})) {
    CHECK(total.verdict == Verdict::not_assessed);
    CHECK(total.reason.find("the project has no panels") == 0);
  }
}
