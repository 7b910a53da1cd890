// The section of a framing member from its solid, the openings in it and the holes drilled in it: what is left of the
// rectangle of its box at the weakest place.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/api/model/panel.h"
#include "plugins/structural/basis/member_resistance.h"

namespace panel_dossier::structural {

/// The way a member runs in its panel. Its depth h is the size through the wall either way; its width b is the size
/// along the wall of an upright member and the upright size of one along the wall.
enum class MemberAxis { upright, along_wall };

struct MemberSection {
  Section section;
  std::string problem;              ///< why no section can be shown; empty when one can, else the rest means nothing
  std::vector<std::string> doubts;  ///< what a sufficient section alone does not show, so that no pass may rest on it
};

/// Holes are taken to be drilled through the smaller side of a rectangle in the middle of its larger one, as
/// Panel_Member.Holes says neither. Usual rules for them (common practice): up to a quarter of that side, at least that
/// side clear of the ends and three diameters from centre to centre. A notch between the ends stands in doubt, for
/// 6.5.1(2) asks for its stress concentration where the wind bends the member both ways. A square notch at an end
/// counts however short it is (6.5.2); an end may be sawn off at a slant over 30 mm of its length.
MemberSection read_section(const Part& part, MemberAxis axis);

/// Area, second moments, moduli and shear area of an outline in m, whose first coordinate runs in the direction of b
/// and second one in that of h. None where no axis of symmetry runs along one of them, so that bending would be
/// oblique.
std::optional<SectionOutline> section_outline(const Polygon& outline);

/// Diameters and distances of their centres from the lower or left end of the member in m, by Panel_Member.Holes, which
/// gives them in mm as `20@300; 20@900`. None when the text is not of that form; empty without the property.
std::optional<std::vector<std::pair<double, double>>> drilled_holes(const Part& part);

}  // namespace panel_dossier::structural
