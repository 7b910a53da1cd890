#include "plugins/thermal/transmittance/transmittance.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <limits>
#include <string>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "tests/thermal/heated_panel.h"
#include "tests/thermal/tables_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using panel_dossier::thermal::check_transmittance;
using panel_dossier::thermal::TransmittanceResult;

namespace {

TransmittanceResult check(const HeatedPanel& model) {
  return check_transmittance(model.project.panels.front(), model.project, model.settings, thermal_tables());
}

constexpr double kShare = 5.0 * 0.045 / 2.4;

/// By hand, without any of the program's geometry.
double combined_u(double share, double r_wool, double r_stud, double r_other) {
  const double upper = 1.0 / ((1.0 - share) / (r_other + r_wool) + share / (r_other + r_stud));
  const double lower = r_other + 1.0 / ((1.0 - share) / r_wool + share / r_stud);
  return 2.0 / (upper + lower);
}

constexpr double kOther = 0.13 + 0.0125 / 0.25 + 0.012 / 0.13 + 0.04;

}  // namespace

TEST_CASE("U of a framed panel follows from the area of its own studs") {
  HeatedPanel model;
  const auto result = check(model);
  const double expected = combined_u(kShare, 0.140 / 0.035, 0.140 / 0.13, kOther);
  CHECK(number_of(result.u_value) == Approx(expected).epsilon(1e-9));
  CHECK(number_of(result.r_value) == Approx(1.0 / expected).epsilon(1e-9));
  CHECK(step_of(result.u_value, "f_1") == Approx(kShare).epsilon(1e-9));
}

TEST_CASE("a panel above the limit fails and says by how much") {
  HeatedPanel model;
  const auto finding = check(model).u_value;
  CHECK(finding.verdict == Verdict::fail);
  CHECK(std::get<double>(finding.limit) == 0.26);
  CHECK(finding.reason.find("is above what the design asks of each panel, 0.26") != std::string::npos);
}

TEST_CASE("a panel below the limit passes with its utilisation") {
  HeatedPanel model;
  model.panel().layers[1].thickness_m.value = 0.140;
  model.project.materials[model.wool].properties = {};
  put(model.project.materials[model.wool].properties, "Pset_MaterialThermal", "ThermalConductivity", 0.022);
  const auto finding = check(model).u_value;
  CHECK(finding.verdict == Verdict::pass);
  CHECK(finding.utilisation.value() == Approx(number_of(finding) / 0.26));
}

TEST_CASE("equal conductivities make framing invisible") {
  HeatedPanel model;
  model.project.materials[model.timber].properties = {};
  put(model.project.materials[model.timber].properties, "Pset_MaterialThermal", "ThermalConductivity", 0.035);
  const auto result = check(model);
  const double total = kOther + 0.140 / 0.035;
  CHECK(result.transmittance->resistance.upper == Approx(total).epsilon(1e-12));
  CHECK(result.transmittance->resistance.lower == Approx(total).epsilon(1e-12));
}

TEST_CASE("slabs of the layer's own material change nothing") {
  HeatedPanel model;
  const double before = number_of(check(model).u_value);
  add_part(model.panel(), PartKind::insulation, "Slab", model.wool, {{0.045, 0.0125, 0.0}, {0.5775, 0.1525, 1.2}});
  CHECK(number_of(check(model).u_value) == Approx(before));
}

TEST_CASE("a rail that fills only part of the depth bridges only that depth") {
  HeatedPanel model;
  model.panel().parts.clear();
  add_part(model.panel(), PartKind::blocking, "Flat rail", model.timber, {{0.0, 0.0125, 0.0}, {2.4, 0.0525, 0.27}});
  const auto result = check(model);
  const double share = 0.1;
  const double wool_40 = 0.040 / 0.035;
  const double wool_100 = 0.100 / 0.035;
  const double timber_40 = 0.040 / 0.13;
  const double rest = kOther + wool_100;
  CHECK(result.transmittance->build_up.bridged.layers.size() == 4);
  CHECK(number_of(result.u_value) == Approx(combined_u(share, wool_40, timber_40, rest)).epsilon(1e-9));
}

TEST_CASE("timber around an opening is part of the share and shown apart") {
  HeatedPanel model;
  add_window(model.panel(), 0.6225, 1.1775, 1.0, 2.0, 1.2);
  add_part(model.panel(), PartKind::lintel, "Lintel", model.timber, {{0.6225, 0.0125, 2.0}, {1.1775, 0.1525, 2.2}});
  const auto finding = check(model).u_value;
  const double net = 2.4 * 2.7 - 0.555;
  CHECK(step_of(finding, "A_net") == Approx(net));
  CHECK(step_of(finding, "f_1") == Approx((5 * 0.045 * 2.7 + 0.555 * 0.2) / net));
  // The lintel, and the two studs that touch the window.
  CHECK(step_of(finding, "f_o1") == Approx((2 * 0.045 * 2.7 + 0.555 * 0.2) / net));
}

TEST_CASE("everything outside a ventilated cavity is disregarded and the outside air is still") {
  HeatedPanel model;
  add_layer(model.panel(), "cavity", "air", std::nullopt, 0.038).is_ventilated = true;
  add_layer(model.panel(), "cladding", "finish", model.gypsum, 0.02);
  const double other = kOther - 0.04 + 0.13;
  CHECK(number_of(check(model).u_value) ==
        Approx(combined_u(kShare, 0.140 / 0.035, 0.140 / 0.13, other)).epsilon(1e-9));
}

TEST_CASE("an unventilated air layer counts with the resistance of its thickness") {
  HeatedPanel model;
  add_layer(model.panel(), "void", "air", std::nullopt, 0.025).is_ventilated = false;
  CHECK(number_of(check(model).u_value) ==
        Approx(combined_u(kShare, 0.140 / 0.035, 0.140 / 0.13, kOther + 0.18)).epsilon(1e-9));
}

TEST_CASE("an air layer of unknown ventilation is not assessed unless the project says what it is") {
  HeatedPanel model;
  add_layer(model.panel(), "void", "air", std::nullopt, 0.025);
  const auto finding = check(model).u_value;
  CHECK(finding.verdict == Verdict::not_assessed);
  CHECK(finding.reason.find("air layer 'void' does not say whether it is ventilated (IfcMaterialLayer.IsVentilated") ==
        0);
  model.settings.set("thermal.air_layers_of_unknown_ventilation", std::string("unventilated"));
  CHECK(number_of(check(model).u_value) ==
        Approx(combined_u(kShare, 0.140 / 0.035, 0.140 / 0.13, kOther + 0.18)).epsilon(1e-9));
}

TEST_CASE("a panel of unknown framing is assessed only with an assumed share") {
  HeatedPanel model;
  model.panel().parts.clear();
  const auto without = check(model).u_value;
  CHECK(without.verdict == Verdict::not_assessed);
  CHECK(without.reason.find("thermal.assumed_framing_fraction") != std::string::npos);
  model.settings.set("thermal.assumed_framing_fraction", 0.15);
  model.settings.set("thermal.assumed_framing_conductivity_w_per_mk", 0.13);
  const auto with = check(model).u_value;
  CHECK(number_of(with) == Approx(combined_u(0.15, 0.140 / 0.035, 0.140 / 0.13, kOther)).epsilon(1e-9));
  const auto assumed = std::find_if(with.inputs.begin(), with.inputs.end(), [](const Input& input) {
    return input.origin.kind == OriginKind::setting && input.origin.key == "thermal.assumed_framing_fraction";
  });
  CHECK(assumed != with.inputs.end());
}

TEST_CASE("limits too far apart are outside the method") {
  HeatedPanel model;
  model.project.materials[model.timber].properties = {};
  put(model.project.materials[model.timber].properties, "Pset_MaterialThermal", "ThermalConductivity", 2.0);
  const auto result = check(model);
  CHECK(result.u_value.verdict == Verdict::not_assessed);
  CHECK(result.u_value.reason.find("more than 1.5 times") != std::string::npos);
  CHECK(step_of(result.u_value, "r") > 1.5);
}

TEST_CASE("the profile starts and ends at the temperatures of the surfaces") {
  HeatedPanel model;
  const auto finding = check(model).u_value;
  REQUIRE(finding.series.size() == 1);
  const auto& points = finding.series.front().curves.front().points;
  const double flux = 23.0 / (kOther + 4.0);
  CHECK(points.front().y == Approx(20.0 - flux * 0.13));
  CHECK(points.back().y == Approx(-3.0 + flux * 0.04));
  CHECK(points.back().x == Approx(164.5));
}

TEST_CASE("unusable input is named and never becomes a number") {
  struct Case {
    const char* label;
    void (*spoil)(HeatedPanel&);
    const char* reason;
  };
  const auto set_conductivity = [](HeatedPanel& model, std::size_t material, double value) {
    model.project.materials[material].properties = {};
    put(model.project.materials[material].properties, "Pset_MaterialThermal", "ThermalConductivity", value);
  };
  static const auto set = set_conductivity;
  const Case cases[] = {
      {"zero conductivity", [](HeatedPanel& m) { set(m, m.wool, 0.0); },
       "thermal conductivity of 'mineral wool' must be greater than zero"},
      {"NaN conductivity", [](HeatedPanel& m) { set(m, m.timber, std::numeric_limits<double>::quiet_NaN()); },
       "thermal conductivity of 'softwood' is not a finite number"},
      {"no conductivity", [](HeatedPanel& m) { m.project.materials[m.gypsum].properties = {}; },
       "material 'gypsum board' has no Pset_MaterialThermal.ThermalConductivity"},
      {"stud without material", [](HeatedPanel& m) { m.panel().parts[2].material.reset(); },
       "stud 'Stud 3' has no material"},
      {"stud without shape", [](HeatedPanel& m) { m.panel().parts[0].bounds.reset(); }, "stud 'Stud 1' has no shape"},
      {"negative thickness", [](HeatedPanel& m) { m.panel().layers[0].thickness_m.value = -0.01; },
       "thickness of 'lining' must be greater than zero"},
      {"layer thicker than the panel", [](HeatedPanel& m) { m.panel().layers[1].thickness_m.value = 9.0; },
       "layer 'cassette' is thicker than the panel"},
      {"NaN width", [](HeatedPanel& m) { m.panel().width_m.value = std::numeric_limits<double>::quiet_NaN(); },
       "width of the panel is not a finite number"},
      {"no layers", [](HeatedPanel& m) { m.panel().layers.clear(); }, "the panel has no material layers"},
      {"outside not known",
       [](HeatedPanel& m) {
         m.panel().layers.clear();
         m.panel().outside_known = false;
       },
       "it is not known which face is outside (Panel_Construction.FirstLayerFace)"},
      {"opening as large as the panel", [](HeatedPanel& m) { add_window(m.panel(), 0.0, 2.4, 0.0, 2.7, 1.2); },
       "the openings leave no area of the panel"},
      {"metal stud", [](HeatedPanel& m) { m.project.materials[m.timber].category = "steel"; },
       "stud 'Stud 1' is of metal"},
  };
  for (const Case& c : cases) {
    INFO(c.label);
    HeatedPanel model;
    c.spoil(model);
    const auto result = check(model);
    for (const Finding* finding : {&result.u_value, &result.r_value}) {
      CHECK(finding->verdict == Verdict::not_assessed);
      CHECK(std::holds_alternative<std::monostate>(finding->value));
      CHECK(finding->reason.find(c.reason) != std::string::npos);
    }
    CHECK_FALSE(result.transmittance);
  }
}

TEST_CASE("a declared U holds down to 15 % below it and up to it, each with half of a hundredth") {
  const auto declaring = [](double declared) {
    HeatedPanel model;
    model.settings.set("thermal.design_u_w_per_m2k", 1.0);
    put(model.panel().properties, "Pset_WallCommon", "ThermalTransmittance", declared);
    return check(model).u_value.verdict;
  };
  const double u = combined_u(kShare, 0.140 / 0.035, 0.140 / 0.13, kOther);
  CHECK(declaring(u - 0.0049) == Verdict::pass);
  CHECK(declaring(u - 0.0052) == Verdict::not_assessed);
  CHECK(declaring((u + 0.0049) / 0.85) == Verdict::pass);
  CHECK(declaring((u + 0.0052) / 0.85) == Verdict::not_assessed);
}
