#include <string>

#include "core/api/finding/finding_builder.h"
#include "core/api/support/exact_sum.h"
#include "core/api/support/geometry.h"
#include "core/api/support/take_off.h"
#include "plugins/quantities/checks.h"

namespace panel_dossier::quantities {

namespace {

/// Elevation seen from inside with the vertical through the centre of gravity.
Drawing elevation(const Panel& panel, const Vec3& centre) {
  const double width_m = panel.width_m.value;
  const double height_m = panel.height_m.value;
  Drawing drawing;
  drawing.title = "Centre of gravity, seen from inside";
  drawing.polygons.push_back({rectangle(0.0, 0.0, width_m, height_m), Hatch::none, LineStyle::heavy, ""});
  for (const Opening& opening : panel.openings) {
    drawing.polygons.push_back({rectangle(opening.x_min_m, opening.z_min_m, opening.x_max_m, opening.z_max_m),
                                Hatch::none, LineStyle::normal, "opening"});
  }
  drawing.lines.push_back({{centre.x, 0.0}, {centre.x, height_m}, LineStyle::centre});
  drawing.lines.push_back({{0.0, centre.z}, {width_m, centre.z}, LineStyle::centre});
  drawing.texts.push_back({{centre.x, centre.z}, "G"});
  drawing.dimensions.push_back({{centre.x, 0.0}, {0.0, 0.0}, 0.2, ""});
  drawing.dimensions.push_back({{0.0, 0.0}, {0.0, centre.z}, 0.2, ""});
  return drawing;
}

void note_items_without_position(FindingBuilder& finding, const TakeOff& measured) {
  for (const TakeOffItem& item : measured.items) {
    if (!item.centroid_m) finding.missing("'" + item.name + "' has no shape, so where its mass lies is not known");
  }
}

}  // namespace

Finding centre_of_gravity(const Panel& panel, const Project& project) {
  FindingBuilder finding("quantities.centre_of_gravity", "Centre of gravity from the middle of the width",
                         panel.global_id, "Mechanics: first moment of mass about the panel's axes (common practice)");
  finding.decimals(3);
  const auto width_m = finding.positive("panel width", "b", "m", panel.width_m, "the panel has no width");
  const TakeOff measured = take_off(panel, project);
  for (const std::string& what : measured.missing) finding.missing(what);
  note_items_without_position(finding, measured);
  const auto centre = measured.centre_of_gravity_m();
  if (finding.incomplete() || !centre) return finding.not_assessed();

  const double eccentricity_m = rounded_to_millionth(centre->x - *width_m / 2.0);
  finding.step("mass", "m", *measured.mass_kg(), "kg", "m = Σ m_i");
  finding.step("from the left edge, seen from inside", "x_G", centre->x, "m", "x_G = Σ m_i·x_i / m");
  finding.step("from the inner face", "y_G", centre->y, "m", "y_G = Σ m_i·y_i / m");
  finding.step("from the foot", "z_G", centre->z, "m", "z_G = Σ m_i·z_i / m");
  finding.step("from the middle of the width", "e_x", eccentricity_m, "m", "e_x = x_G − b/2");
  finding.step("share of the width", "e_x/b", eccentricity_m / *width_m, "");
  finding.drawing(elevation(panel, *centre));
  finding.note(
      "Positive: right of the middle, seen from inside. Two lifting points at equal distance from the middle "
      "carry unequal loads unless the value is near zero.");
  finding.note(
      "Items count at the centroid of their shape; a window or door at the centre of its opening. The lifting "
      "plan is the lifting supervisor's; make a trial lift.");
  return finding.inform(eccentricity_m, "m");
}

}  // namespace panel_dossier::quantities
