// A load-bearing panel with everything that its frame and its sheathing are checked for.
#pragma once

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"
#include "tests/support/cassette_settings.h"

namespace panel_dossier::testing {

/// 2.4 m × 3.0 m, studs 45 × 145 of C24 at 600 mm, 1.0 kPa of wind, 8 and 6 kN/m on the head, 2 kN of racking load, no
/// uplift; OSB/3 12 mm on the inner face, two sheets of 1200 mm, nailed 2.5 × 50 at 100 mm, 9 mm from the edges, no
/// tie-downs.
inline Project braced_project() {
  Project project = cassette_project({.sheathed_outside = false});
  Panel& panel = project.panels.front();
  Properties& properties = panel.properties;
  replace(properties, "Pset_WallCommon", "LoadBearing", property_of(true));
  properties.add("Panel_Structure", "DesignWindPressure", property_of(1000.0));
  properties.add("Panel_Structure", "PermanentLineLoad", property_of(8000.0));
  properties.add("Panel_Structure", "VariableLineLoad", property_of(6000.0));
  properties.add("Panel_Structure", "VariableLoadCategory", property_of("C"));
  properties.add("Panel_Structure", "RackingLoad", property_of(2000.0));
  properties.add("Panel_Structure", "WindUpliftLineLoad", property_of(0.0));
  for (Part& part : panel.parts) {
    if (part.kind == PartKind::sheet) part.bounds->max.x = 1.2;
  }
  panel.parts.push_back(box_part("right sheet", PartKind::sheet, kOsb, {{1.2, 0.0, 0.0}, {2.4, 0.012, 3.0}}));
  Part nails = box_part("nails", PartKind::fastener, kTimber, {{0.0, 0.0, 0.0}, {2.4, 0.012, 3.0}});
  nails.object_type = "NAIL";
  nails.volume_m3 = Sourced<double>{1e-6, export_origin("IfcMechanicalFastener", 40)};
  nails.properties.add("Panel_Fastener", "Diameter", property_of(0.0025));
  nails.properties.add("Panel_Fastener", "Length", property_of(0.050));
  nails.properties.add("Panel_Fastener", "Spacing", property_of(0.100));
  nails.properties.add("Panel_Fastener", "IntermediateSpacing", property_of(0.200));
  nails.properties.add("Panel_Fastener", "EdgeDistance", property_of(0.009));
  nails.properties.add("Panel_Fastener", "TensileStrength", property_of(600e6));
  panel.parts.push_back(std::move(nails));
  return project;
}

/// A tie-down at the end stud that begins at x; its ObjectType as other programs may write it.
inline Part tie_down_at(double x_m, double design_tension_n, const std::string& type = "TIE_DOWN") {
  Part part = box_part("tie-down at " + std::to_string(x_m), PartKind::fastener, kTimber,
                       {{x_m, 0.05, 0.0}, {x_m + 0.045, 0.1, 0.4}});
  part.object_type = type;
  part.properties.add("Panel_Fastener", "DesignTension", property_of(design_tension_n));
  return part;
}

inline Part& part_named(Project& project, const std::string& name) {
  for (Part& part : project.panels.front().parts) {
    if (part.name == name) return part;
  }
  throw std::out_of_range("no part " + name);
}

inline Settings braced_settings() {
  Settings settings = cassette_settings();
  settings.set("structural.fixing_spacing_m", 0.9);
  settings.set("structural.racking_method", std::string("A"));
  return settings;
}

}  // namespace panel_dossier::testing
