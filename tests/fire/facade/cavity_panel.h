// A panel with a cavity outside, for tests and cases of cavity barriers.
#pragma once

#include "core/api/testing/cassette_panel.h"

namespace panel_dossier::testing {

inline void add_storey(Project& project, double elevation_m, const char* name) {
  Storey storey;
  storey.name = name;
  storey.elevation_m = Sourced<double>{elevation_m, export_origin("IfcBuildingStorey", 6)};
  project.storeys.push_back(storey);
}

/// The cassette on the lower of two storeys with a cavity of 38 mm and gypsum as cladding outside it.
inline Project panel_with_cavity() {
  Project project = cassette_project();
  add_storey(project, 3.0, "upper");
  Panel& panel = project.panels.front();
  panel.storey = 0;
  add_layer(panel, "cavity", "air", kGypsum, 0.169, 0.207);
  panel.layers.back().material.reset();
  add_layer(panel, "cladding", "finish", kGypsum, 0.207, 0.215);
  panel.thickness_m.value = 0.215;
  return project;
}

/// A window of 1.2 m by 1.5 m.
inline Opening cavity_window() {
  Opening opening;
  opening.name = "W";
  opening.x_min_m = 0.6;
  opening.x_max_m = 1.8;
  opening.z_min_m = 0.9;
  opening.z_max_m = 2.4;
  opening.filling_entity = "IfcWindow";
  return opening;
}

/// A barrier in the cavity, over this stretch of the panel's face.
inline Part cavity_barrier(double from_x_m, double to_x_m, double from_z_m, double to_z_m) {
  Part barrier = box_part("CB", PartKind::other, kWool, {{from_x_m, 0.169, from_z_m}, {to_x_m, 0.207, to_z_m}});
  barrier.object_type = "CAVITY_BARRIER";
  return barrier;
}

/// Along the foot of the cavity, from the left edge to `to_x_m`.
inline Part foot_barrier(double to_x_m) {
  return cavity_barrier(0.0, to_x_m, 0.0, 0.1);
}

/// Over the height of 3 m, with its left edge at `x_m`.
inline Part upright_barrier(double x_m) {
  return cavity_barrier(x_m, x_m + 0.1, 0.0, 3.0);
}

}  // namespace panel_dossier::testing
