// What layers are by what they are made of, whatever they are called.
#include "plugins/thermal/transmittance/plain_layers.h"

#include <catch2/catch.hpp>
#include <string>
#include <utility>

#include "plugins/thermal/transmittance/transmittance.h"
#include "tests/thermal/heated_panel.h"
#include "tests/thermal/tables_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// The cassette's layer with these words and this conductivity.
bool insulates(const std::string& layer, const std::string& material, double conductivity, double thickness_m = 0.140) {
  HeatedPanel model;
  Material& wool = model.project.materials[model.wool];
  wool.category = material;
  wool.properties = {};
  put(wool.properties, "Pset_MaterialThermal", "ThermalConductivity", conductivity);
  model.panel().layers[1].category = layer;
  model.panel().layers[1].thickness_m.value = thickness_m;
  return thermal::is_insulating(model.panel().layers[1], model.project);
}

}  // namespace

TEST_CASE("insulation is a category of layer or material, or a low conductivity") {
  CHECK(insulates("insulation", "", 0.2));
  CHECK(insulates("", "insulation", 0.2));
  CHECK(insulates("anything", "else", 0.065));
  CHECK_FALSE(insulates("anything", "else", 0.066));
  CHECK_FALSE(insulates("air", "insulation", 0.035));
}

TEST_CASE("a membrane is thin: what is thicker insulates all the same") {
  CHECK_FALSE(insulates("membrane", "plastic", 0.04, 0.005));
  CHECK(insulates("membrane", "plastic", 0.04, 0.0051));
}

TEST_CASE("metal is a category, or a conductivity that nothing else has") {
  HeatedPanel model;
  Material& timber = model.project.materials[model.timber];
  CHECK_FALSE(thermal::is_metal(timber));
  timber.category = "aluminium";
  CHECK(thermal::is_metal(timber));
  timber.category.clear();
  timber.properties = {};
  put(timber.properties, "Pset_MaterialThermal", "ThermalConductivity", 17.0);
  CHECK(thermal::is_metal(timber));
}

TEST_CASE("a conductivity of metal begins at 10 W/(m·K)") {
  HeatedPanel model;
  Material& timber = model.project.materials[model.timber];
  timber.category.clear();
  for (const auto& [conductivity, metal] : {std::pair{9.8, false}, std::pair{10.0, true}}) {
    timber.properties = {};
    put(timber.properties, "Pset_MaterialThermal", "ThermalConductivity", conductivity);
    CHECK(thermal::is_metal(timber) == metal);
  }
}

TEST_CASE("heat flows horizontally up to 30° from the horizontal") {
  HeatedPanel model;
  const auto flow = [&](double outward_rise) {
    model.panel().frame.y_axis.z = outward_rise;
    return thermal::heat_flow_through(model.panel());
  };
  CHECK(flow(0.49) == thermal::HeatFlow::horizontal);
  CHECK(flow(-0.49) == thermal::HeatFlow::horizontal);
  CHECK(flow(0.51) == thermal::HeatFlow::upwards);
  CHECK(flow(-0.51) == thermal::HeatFlow::downwards);
}

TEST_CASE("air in a material is a contradiction, but for still air without a name and battens") {
  const auto said = [](const char* category, double conductivity) {
    HeatedPanel model;
    const std::size_t material = add_material(model.project, "stuff", category, 400.0, conductivity);
    add_layer(model.panel(), "gap", "air", material, 0.020).is_ventilated = false;
    const Finding found =
        thermal::check_transmittance(model.panel(), model.project, model.settings, thermal_tables()).u_value;
    return found.reason.find("layer 'gap' is air by its category") != std::string::npos;
  };
  CHECK_FALSE(said("", 0.0295));
  CHECK(said("", 0.0305));
  CHECK(said("wood", 0.064));
  CHECK_FALSE(said("wood", 0.066));
  CHECK_FALSE(said("air", 0.2));
  CHECK(said("insulation", 0.025));
}
