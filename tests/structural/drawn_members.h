// Framing as exports draw it, for tests that state their members by boxes.
#pragma once

#include <utility>
#include <vector>

#include "core/api/testing/check_cases.h"
#include "core/api/testing/findings.h"
#include "plugins/structural/checks.h"
#include "tests/structural/structural_tables.h"

namespace panel_dossier::testing {

/// Every framing member of a box alone becomes the solid that fills it; a volume that the box has outgrown follows.
inline void draw_members(Project& project) {
  for (Panel& panel : project.panels) {
    for (Part& part : panel.parts) {
      if (!is_framing(part.kind) || !part.bounds || part.solid) continue;
      const Box3& box = *part.bounds;
      const Vec3 size = box.size();
      if (!(size.x > 0.0) || !(size.y > 0.0) || !(size.z > 0.0)) continue;
      Extrusion solid;
      solid.outline = rectangle(box.min.x, box.min.y, box.max.x, box.max.y);
      solid.frame.origin.z = box.min.z;
      solid.depth_m = size.z;
      if (part.volume_m3 && part.volume_m3->value < solid.volume_m3()) part.volume_m3->value = solid.volume_m3();
      part.solid = std::move(solid);
    }
  }
}

inline Project with_drawn_members(Project project) {
  draw_members(project);
  return project;
}

/// Of the first panel, its members drawn.
inline std::vector<Finding> findings_as_drawn(Project project, const Settings& settings) {
  draw_members(project);
  return structural::check_panel(project.panels.front(), project, settings, structural_tables()).findings;
}

/// Cases whose projects and changes state members by boxes, which are drawn after each change.
inline CheckCases as_drawn(CheckCases cases) {
  cases.sound_project = [sound = std::move(cases.sound_project)] { return with_drawn_members(sound()); };
  for (CheckCase& one : cases.cases) {
    if (!one.change) continue;
    one.change = [change = std::move(one.change)](Project& project, Settings& settings) {
      for (Panel& panel : project.panels) {
        for (Part& part : panel.parts) part.solid.reset();
      }
      change(project, settings);
      draw_members(project);
    };
  }
  return cases;
}

}  // namespace panel_dossier::testing
