// A project as text without its origins, so that two readings of one building can be compared.
#pragma once

#include <ostream>
#include <sstream>
#include <string>
#include <variant>

#include "core/api/model/project.h"

namespace panel_dossier::intake_test {

inline void describe(std::ostream& out, const Properties& properties) {
  for (const auto& [name, property] : properties.all()) {
    out << "  " << name << " = ";
    std::visit([&](const auto& value) { out << value; }, property.value);
    out << " " << property.unit << "\n";
  }
}

inline void describe(std::ostream& out, const Box3& box) {
  out << box.min.x << " " << box.min.y << " " << box.min.z << " to " << box.max.x << " " << box.max.y << " "
      << box.max.z;
}

inline void describe(std::ostream& out, const Part& part) {
  out << to_string(part.kind) << " " << part.global_id << " " << part.name << " x" << part.count << " ";
  if (part.bounds) describe(out, *part.bounds);
  out << " V " << (part.volume_m3 ? part.volume_m3->value : -1.0);
  out << " L " << (part.length_m ? part.length_m->value : -1.0) << "\n";
}

/// Everything the generations have in common. IFC2x3 has no names or categories of layers.
inline std::string describe(const Project& project) {
  std::ostringstream out;
  out << project.global_id << " " << project.name << " " << project.phase << " " << project.site_name << " "
      << project.true_north_rad << "\n";
  for (const Storey& storey : project.storeys) {
    out << storey.global_id << " " << storey.name << " " << storey.building << " " << storey.elevation_m->value << "\n";
  }
  for (const Material& material : project.materials) {
    out << material.name << "\n";
    describe(out, material.properties);
  }
  for (const Evidence& evidence : project.evidence) {
    out << evidence.id << " " << evidence.location << " " << static_cast<int>(evidence.status) << "\n";
  }
  for (const Panel& panel : project.panels) {
    out << panel.global_id << " " << panel.mark << " " << panel.type << " storey " << *panel.storey << " "
        << panel.width_m.value << " " << panel.height_m.value << " " << panel.thickness_m.value << " at "
        << panel.frame.origin.x << " " << panel.frame.origin.y << " " << panel.frame.origin.z << "\n";
    describe(out, panel.properties);
    for (const Layer& layer : panel.layers) {
      out << "layer " << layer.y_inside_m << " " << layer.y_outside_m << " "
          << (layer.material ? static_cast<int>(*layer.material) : -1) << "\n";
    }
    for (const Part& part : panel.parts) describe(out, part);
    for (const Opening& opening : panel.openings) {
      out << opening.global_id << " " << opening.x_min_m << " " << opening.x_max_m << " " << opening.z_min_m << " "
          << opening.z_max_m << " " << opening.filling_entity << "\n";
      describe(out, opening.filling_properties);
    }
  }
  return out.str();
}

}  // namespace panel_dossier::intake_test
