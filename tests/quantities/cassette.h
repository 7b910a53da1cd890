// A small timber cassette for the tests of this folder.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::quantities::test {

inline Material material(const std::string& name, std::optional<double> density_kg_per_m3) {
  Material result;
  result.name = name;
  if (density_kg_per_m3) result.properties.add("Pset_MaterialCommon", "MassDensity", {*density_kg_per_m3, "kg/m³", {}});
  return result;
}

/// A box with its lower inner corner at `at`, extruded upwards.
inline Part box(PartKind kind, const std::string& name, std::size_t material, const Vec3& at, const Vec3& size) {
  Part part;
  part.kind = kind;
  part.name = name;
  part.material = material;
  Frame frame;
  frame.origin = at;
  part.solid = Extrusion{{{0.0, 0.0}, {size.x, 0.0}, {size.x, size.y}, {0.0, size.y}}, frame, {0.0, 0.0, 1.0}, size.z};
  part.bounds = part.solid->bounds();
  part.volume_m3 = Sourced<double>{part.solid->volume_m3(), {}};
  return part;
}

inline Part screws(const std::string& type, int count, double mass_kg) {
  Part part;
  part.kind = PartKind::fastener;
  part.name = "screws " + type;
  part.material = 2;
  part.count = count;
  part.bounds = Box3{{0.0, 0.0, 0.0}, {2.4, 0.159, 2.4}};
  part.properties.add("Panel_Fastener", "Type", {type, "", {}});
  part.properties.add("Panel_FastenerQuantities", "NetWeight", {mass_kg, "kg", {}});
  return part;
}

inline constexpr double kStud_m = 0.045;
inline constexpr double kDepth_m = 0.145;
inline constexpr double kBoard_m = 0.012;

/// 2.4 m square: five studs between two rails, a board on each side half, screws. Symmetric about its middle.
inline Panel cassette(const std::string& mark) {
  Panel panel;
  panel.global_id = "id-" + mark;
  panel.mark = mark;
  panel.type = "infill";
  panel.width_m.value = 2.4;
  panel.height_m.value = 2.4;
  panel.thickness_m.value = kDepth_m + kBoard_m;
  const double clear_m = 2.4 - 2.0 * kStud_m;
  for (int i = 0; i < 5; ++i) {
    const double x_m = i * (2.4 - kStud_m) / 4.0;
    panel.parts.push_back(
        box(PartKind::stud, "stud " + std::to_string(i + 1), 0, {x_m, 0.0, kStud_m}, {kStud_m, kDepth_m, clear_m}));
  }
  panel.parts.push_back(box(PartKind::rail, "sole rail", 0, {0.0, 0.0, 0.0}, {2.4, kDepth_m, kStud_m}));
  panel.parts.push_back(box(PartKind::rail, "head rail", 0, {0.0, 0.0, 2.4 - kStud_m}, {2.4, kDepth_m, kStud_m}));
  panel.parts.push_back(box(PartKind::sheet, "board 1", 1, {0.0, kDepth_m, 0.0}, {1.2, kBoard_m, 2.4}));
  panel.parts.push_back(box(PartKind::sheet, "board 2", 1, {1.2, kDepth_m, 0.0}, {1.2, kBoard_m, 2.4}));
  panel.parts.push_back(screws("4.0 x 50", 96, 0.2));
  return panel;
}

/// Softwood, board and steel, and the given panels.
inline Project project_of(std::vector<Panel> panels) {
  Project project;
  project.materials = {material("softwood", 420.0), material("particle board", 650.0), material("steel", 7850.0)};
  project.storeys.resize(1);
  project.storeys[0].name = "ground floor";
  project.panels = std::move(panels);
  return project;
}

inline Settings settings() {
  Settings result;
  result.set("quantities.crew_area_rate_m2_per_h", 20.0);
  result.set("quantities.stock_lengths_m.0", 4.8);
  result.set("quantities.stock_lengths_m.1", 6.0);
  result.set("quantities.saw_kerf_m", 0.004);
  return result;
}

inline double step(const Finding& finding, const std::string& symbol) {
  for (const Step& candidate : finding.steps) {
    if (candidate.symbol == symbol) return std::get<double>(candidate.value);
  }
  throw std::runtime_error("no step " + symbol);
}

}  // namespace panel_dossier::quantities::test
