// The braced panel with a window in it.
#pragma once

#include <cmath>

#include "tests/structural/braced_panel.h"

namespace panel_dossier::testing {

/// A window 1.2 m wide and 1.2 m high in place of the stud at 1.2 m, with lintels and trimmers.
inline Project project_with_window() {
  Project project = braced_project();
  Panel& panel = project.panels.front();
  std::erase_if(panel.parts, [](const Part& part) {
    return part.kind == PartKind::stud && std::abs(part.bounds->centre().x - 1.2) < 0.01;
  });
  const auto across = [&](const char* name, PartKind kind, double y0, double y1, double z0, double z1) {
    panel.parts.push_back(box_part(name, kind, kTimber, {{0.6225, y0, z0}, {1.7775, y1, z1}}));
  };
  across("sill", PartKind::blocking, 0.012, 0.157, 0.855, 0.9);
  across("trimmer", PartKind::blocking, 0.012, 0.157, 2.1, 2.145);
  across("inner lintel", PartKind::lintel, 0.012, 0.057, 2.145, 2.34);
  across("outer lintel", PartKind::lintel, 0.112, 0.157, 2.145, 2.34);
  Opening opening;
  opening.name = "O1";
  opening.x_min_m = 0.6225;
  opening.x_max_m = 1.7775;
  opening.z_min_m = 0.9;
  opening.z_max_m = 2.1;
  opening.filling_entity = "IfcWindow";
  opening.filling_properties.add("Panel_Filling", "FactoryFitted", property_of(false));
  panel.openings.push_back(opening);
  return project;
}

}  // namespace panel_dossier::testing
