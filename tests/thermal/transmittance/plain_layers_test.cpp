// What layers are by what they are made of, whatever they are called.
#include "plugins/thermal/transmittance/plain_layers.h"

#include <catch2/catch.hpp>
#include <string>

#include "tests/thermal/heated_panel.h"

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
