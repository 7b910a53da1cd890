// The small changes of which cases are made: what each does, and that none does nothing.
#include "core/api/testing/change.h"

#include <catch2/catch.hpp>
#include <cstddef>
#include <stdexcept>
#include <string>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/panels.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

/// A cassette with a window, and two settings of one group.
struct Model {
  Project project = cassette_project();
  Settings settings;

  Model() {
    add_window(project.panels.front(), 0.6, 1.2, 0.9, 2.1, 1.4);
    settings.set("toy.limits.0", 1.0);
    settings.set("toy.limits.1", 2.0);
  }

  Model& with(const Change& change) {
    change(project, settings);
    return *this;
  }
  const Panel& panel() const { return project.panels.front(); }
};

double density(const Model& model, std::size_t material) {
  return model.project.materials[material].density_kg_per_m3()->value;
}

}  // namespace

TEST_CASE("A property is set where the change says, and keeps the origin of the one before") {
  Model model;
  model.with(set_of_material(kOsb, "Pset_MaterialCommon.MassDensity", 700.0));
  CHECK(density(model, kOsb) == 700.0);
  CHECK(density(model, kTimber) == 420.0);
  CHECK(model.project.materials[kOsb].density_kg_per_m3()->origin.line == 7);
  model.with(set_of_materials("Pset_MaterialCommon.MassDensity", 5.0));
  CHECK(density(model, kTimber) == 5.0);
  model.with(set_of_panels("Pset_WallCommon.LoadBearing", true));
  CHECK(model.panel().load_bearing()->value);
  model.with(set_of_parts(PartKind::stud, "Panel_Toy.Grade", "C24"));
  CHECK(model.panel().parts.front().properties.text("Panel_Toy", "Grade")->value == "C24");
  CHECK(model.panel().parts.back().properties.find("Panel_Toy", "Grade") == nullptr);
  model.with(set_of_fillings("Pset_WindowCommon.ThermalTransmittance", 0.9));
  CHECK(model.panel().openings.front().filling_properties.number("Pset_WindowCommon", "ThermalTransmittance")->value ==
        0.9);
  model.with(set_of_project("Panel_Toy.Site", "coast"));
  CHECK(model.project.properties.text("Panel_Toy", "Site")->origin.property == "Panel_Toy.Site");
  model.with(set_setting("toy.limits.0", 3.0));
  CHECK(model.settings.number("toy.limits.0")->value == 3.0);
}

TEST_CASE("Properties, settings and parts are taken away") {
  Model model;
  model.with(drop_of_material(kOsb, "Pset_MaterialCommon.MassDensity"));
  CHECK_FALSE(model.project.materials[kOsb].density_kg_per_m3());
  CHECK(density(model, kTimber) == 420.0);
  model.with(drop_of_materials("Pset_MaterialCommon.MassDensity"));
  CHECK_FALSE(model.project.materials[kTimber].density_kg_per_m3());
  model.with(drop_of_panels("Pset_WallCommon.LoadBearing"));
  CHECK_FALSE(model.panel().load_bearing());
  model.with(drop_of_parts(PartKind::insulation, "Qto_BuildingElementPartBaseQuantities.NetWeight"));
  model.with(drop_of_fillings("Pset_WindowCommon.ThermalTransmittance"));
  CHECK_FALSE(model.panel().openings.front().filling_properties.number("Pset_WindowCommon", "ThermalTransmittance"));
  model.with(set_of_project("Panel_Toy.Site", "coast")).with(drop_of_project("Panel_Toy.Site"));
  CHECK(model.project.properties.all().empty());
  model.with(drop_setting("toy.limits.0"));
  CHECK(model.settings.all().size() == 1);
  model.with(drop_settings("toy.limits."));
  CHECK(model.settings.all().empty());
  model.with(drop_parts(PartKind::stud));
  for (const Part& part : model.panel().parts) CHECK(part.kind != PartKind::stud);
}

TEST_CASE("Changes follow one another, and reach every panel and material") {
  Model model;
  model.project.panels.push_back(model.panel());
  model.with(together({rename_materials("board"), change_panels([](Panel& panel) { panel.mark += "x"; }),
                       change_panels([](Panel& panel) { panel.mark += "y"; })}));
  for (const Material& material : model.project.materials) CHECK(material.name == "board");
  for (const Panel& panel : model.project.panels) CHECK(panel.mark == "P1xy");
}

TEST_CASE("What is not there cannot be changed") {
  const auto refused = [](const Change& change) {
    Model model;
    CHECK_THROWS_AS(model.with(change), std::logic_error);
  };
  refused(drop_of_panels("Panel_Toy.Load"));
  refused(drop_of_material(kOsb, "Panel_Toy.Load"));
  refused(drop_of_materials("Panel_Toy.Load"));
  refused(drop_of_parts(PartKind::stud, "Panel_Toy.Load"));
  refused(drop_of_fillings("Panel_Toy.Load"));
  refused(drop_of_project("Panel_Toy.Load"));
  refused(set_of_parts(PartKind::cladding, "Panel_Toy.Load", 1.0));
  refused(set_of_panels("Load", 1.0));
  refused(set_of_material(99, "Panel_Toy.Load", 1.0));
  refused(drop_setting("toy.limits"));
  refused(drop_settings("toy.totals."));
  refused(drop_parts(PartKind::cladding));
}
