// Spoilt input through all checks of a panel: named, not assessed, and never a number that is not one.
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/thermal/checks.h"
#include "tests/thermal/heated_panel.h"
#include "tests/thermal/tables_support.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();

void replace(Properties& properties, const char* set, const char* name, double value) {
  properties = {};
  put(properties, set, name, value);
}

bool is_finite(const Value& value) {
  const double* number = std::get_if<double>(&value);
  return number == nullptr || std::isfinite(*number);
}

void check_all_finite(const Finding& finding) {
  CHECK(is_finite(finding.value));
  CHECK(is_finite(finding.limit));
  for (const Input& input : finding.inputs) CHECK(is_finite(input.value));
  for (const Step& step : finding.steps) CHECK(is_finite(step.value));
  for (const Table& table : finding.tables) {
    for (const auto& row : table.rows) {
      for (const Value& cell : row) CHECK(is_finite(cell));
    }
  }
  for (const Series& series : finding.series) {
    for (const Curve& curve : series.curves) {
      for (const Vec2& point : curve.points) CHECK(std::isfinite(point.x + point.y));
    }
  }
}

struct Case {
  const char* label;
  void (*spoil)(HeatedPanel&);
  const char* reason;
  std::vector<const char*> not_assessed;
};

}  // namespace

TEST_CASE("spoilt input is named by every check that needs it") {
  const std::vector<const char*> all{
      "thermal.u_value",
      "thermal.r_value",
      "thermal.heat_loss",
      "thermal.surface_temperature_factor",
      "thermal.surface_condensation",
      "thermal.interstitial_condensation",
      "thermal.dynamic_transmittance",
      "thermal.decrement",
      "thermal.areal_heat_capacity",
  };
  const std::vector<const char*> moisture{"thermal.surface_condensation", "thermal.interstitial_condensation"};
  const std::vector<const char*> vapour{"thermal.interstitial_condensation"};
  const std::vector<const char*> daily{"thermal.dynamic_transmittance", "thermal.decrement",
                                       "thermal.areal_heat_capacity"};
  const Case cases[] = {
      {"λ of 0",
       [](HeatedPanel& m) {
         replace(m.project.materials[m.wool].properties, "Pset_MaterialThermal", "ThermalConductivity", 0.0);
       },
       "thermal conductivity of 'mineral wool' must be greater than zero", all},
      {"λ not a number",
       [](HeatedPanel& m) {
         replace(m.project.materials[m.wool].properties, "Pset_MaterialThermal", "ThermalConductivity", kNaN);
       },
       "thermal conductivity of 'mineral wool' is not a finite number", all},
      {"a layer thicker than the panel", [](HeatedPanel& m) { m.panel().layers[1].thickness_m.value = 0.3; },
       "layer 'cassette' is thicker than the panel", all},
      {"no μ",
       [](HeatedPanel& m) {
         Properties& board = m.project.materials[m.board].properties;
         replace(board, "Pset_MaterialThermal", "ThermalConductivity", 0.13);
         put(board, "Pset_MaterialThermal", "SpecificHeatCapacity", 1700.0);
       },
       "material 'strand board' has no Pset_MaterialHygroscopic.UpperVaporResistanceFactor", vapour},
      {"μ below that of air",
       [](HeatedPanel& m) {
         put(m.project.materials[m.board].properties, "Pset_MaterialHygroscopic", "LowerVaporResistanceFactor", 0.0);
         put(m.project.materials[m.wool].properties, "Pset_MaterialHygroscopic", "LowerVaporResistanceFactor", 0.5);
       },
       "the water vapour resistance factor of 'mineral wool' (Pset_MaterialHygroscopic.UpperVaporResistanceFactor or "
       "LowerVaporResistanceFactor) is below 1, that of air",
       vapour},
      {"a climate of eleven months",
       [](HeatedPanel& m) { drop_setting("thermal.monthly.external_temperature_c.11")(m.project, m.settings); },
       "setting 'thermal.monthly.external_temperature_c' has 11 months, not 12", moisture},
      {"a humidity in per cent",
       [](HeatedPanel& m) {
         drop_setting("thermal.humidity_class")(m.project, m.settings);
         for (int month = 0; month < 12; ++month) {
           m.settings.set("thermal.monthly.internal_relative_humidity." + std::to_string(month), 50.0);
         }
       },
       "internal relative humidity of January is out of range", moisture},
      {"no heat capacity",
       [](HeatedPanel& m) {
         Properties& wool = m.project.materials[m.wool].properties;
         replace(wool, "Pset_MaterialThermal", "ThermalConductivity", 0.035);
         put(wool, "Pset_MaterialHygroscopic", "UpperVaporResistanceFactor", 1.0);
       },
       "Pset_MaterialThermal.SpecificHeatCapacity", daily},
  };
  for (const Case& c : cases) {
    INFO(c.label);
    HeatedPanel model;
    c.spoil(model);
    const auto findings =
        thermal::check_panel(model.panel(), model.project, model.settings, thermal_tables(), detail_solver()).findings;
    for (const Finding& finding : findings) check_all_finite(finding);
    for (const char* id : c.not_assessed) {
      INFO(id);
      const Finding& finding = finding_of(findings, id);
      CHECK(finding.verdict == Verdict::not_assessed);
      CHECK(finding.reason.find(c.reason) != std::string::npos);
    }
  }
}

TEST_CASE("no input at all is no crash and no value") {
  HeatedPanel model;
  model.settings = {};
  model.project.materials.clear();
  for (Layer& layer : model.panel().layers) layer.material.reset();
  for (Part& part : model.panel().parts) part.material.reset();
  const CheckOutcome outcome =
      thermal::check_panel(model.panel(), model.project, model.settings, thermal_tables(), detail_solver());
  for (const Finding& finding : outcome.findings) {
    INFO(finding.check);
    check_all_finite(finding);
    CHECK(finding.verdict != Verdict::pass);
  }
}
