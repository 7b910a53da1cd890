// The panel that the cases of the structural checks change: sound under every one of them.
#pragma once

#include <string>

#include "core/api/testing/change.h"
#include "tests/structural/braced_panel.h"
#include "tests/structural/hoisted_panel.h"

namespace panel_dossier::testing {

/// The load-bearing panel of braced_project() with lifting points, brackets and tie-downs at both ends, so that every
/// check of it but those of openings and of composite action has something to say.
inline Project sound_project() {
  Project project = braced_project();
  make_hoistable(project);
  project.panels.front().parts.push_back(tie_down_at(0.0, 20000.0));
  project.panels.front().parts.push_back(tie_down_at(2.355, 20000.0));
  return project;
}

inline Settings sound_settings() {
  return hoisting_settings(braced_settings());
}

/// A number of the fastener's set, in place of the one that stands there.
inline void set_fastener(Part& part, const std::string& name, double value) {
  remove(part.properties, "Panel_Fastener." + name);
  part.properties.add("Panel_Fastener", name, property_of(value));
}

inline Change wind_of(double pressure_pa) {
  return set_of_panels("Panel_Structure.DesignWindPressure", pressure_pa);
}

/// Persons lean on the panel 1.1 m above its foot: category C1, 500 N/m.
inline Change make_barrier() {
  return together({set_of_panels("Panel_Structure.BarrierLoadCategory", std::string("C1")),
                   set_of_panels("Panel_Structure.BarrierHeight", 1.1)});
}

/// Not load-bearing, so there are neither head loads nor racking.
inline Change make_infill() {
  return together({set_of_panels("Pset_WallCommon.LoadBearing", false),
                   drop_of_panels("Panel_Structure.PermanentLineLoad"),
                   drop_of_panels("Panel_Structure.VariableLineLoad"), drop_of_panels("Panel_Structure.RackingLoad")});
}

/// The sheets of plywood, to which 3 d from their edge applies.
inline Change make_plywood() {
  return together({set_of_material(kOsb, "Panel_Board.ProductStandard", std::string("EN 636 plywood")),
                   set_of_material(kOsb, "Panel_Board.CharacteristicDensity", 550.0)});
}

}  // namespace panel_dossier::testing
