// The vertical members of a panel as a structure: position, section, length, share of the wall and sheathing.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "plugins/structural/basis/member_section.h"
#include "plugins/structural/basis/stretch.h"

namespace panel_dossier::structural {

/// Share of a length that counts as all of it.
inline constexpr double kWholeLength = 0.95;

/// Sizes of sections and boards that differ by less are one size: coordinates of tenths of a millimetre leave up to
/// 0.2 mm between equal ones, and boards and nails step by 0.3 mm and more.
inline constexpr double kSameSize_m = 0.00025;

/// One stud or post; pieces of the same section stacked end to end count as one member.
struct VerticalMember {
  std::vector<std::size_t> parts;       ///< indices into Panel::parts, from the bottom up
  std::optional<std::size_t> material;  ///< index into Project::materials
  double x_m = 0.0;                     ///< centre line in the panel's frame
  double width_m = 0.0;                 ///< b, along the wall
  double depth_m = 0.0;                 ///< h, through the wall
  Section section;                      ///< the weakest of its pieces, by their solids
  std::vector<std::string> doubts;      ///< why no verification of it may pass, though its section suffices
  double inside_y_m = 0.0;              ///< face towards the inside
  double bottom_m = 0.0;
  double top_m = 0.0;
  std::vector<double> joints_m;           ///< heights above the foot of the panel at which its pieces meet
  std::optional<double> left_spacing_m;   ///< to the next member that reaches as high and as low; none at the edge
  std::optional<double> right_spacing_m;  ///< likewise
  double tributary_width_m = 0.0;
  bool sheathed_inside = false;   ///< a sheet lies on the inner face over the whole length
  bool sheathed_outside = false;  ///< likewise on the outer face
  bool shares_load = false;       ///< the conditions taken for ksys of EN 1995-1-1 6.6 hold

  double length_m() const { return top_m - bottom_m; }
  Stretch along_wall() const { return {x_m - width_m / 2.0, x_m + width_m / 2.0}; }
  Stretch upright() const { return {bottom_m, top_m}; }
  bool restrained_along_wall() const { return sheathed_inside || sheathed_outside; }
  bool restrained_on_both_faces() const { return sheathed_inside && sheathed_outside; }
};

struct Framing {
  std::vector<VerticalMember> members;  ///< from left to right, then from the bottom up
  std::vector<std::string> problems;    ///< why a stud or post could not be used; the framing is then incomplete
};

/// Only gypsum boards are not counted as sheathing (common practice: not relied on for restraint). A piece of which an
/// end meets no other framing member and no edge of the panel is a problem: what holds it there is not known.
Framing read_framing(const Panel& panel, const Project& project);

/// Whether one member stands on another end to end, with nothing between them, whatever their sections.
bool stands_on(const VerticalMember& upper, const VerticalMember& lower);

/// Whether a framing member other than a batten stands upright, or lies along the wall: by its sizes where one is more
/// than twice the other, and only between these by what the export calls it.
bool stands_upright(const Part& part);
bool lies_along_wall(const Part& part);

/// A member along the wall that the export calls a rail, or one at the head or the foot of the panel that is no lintel.
bool is_rail(const Panel& panel, const Part& part);

/// What a box takes up along the wall and upright.
Stretch along_wall(const Box3& box);
Stretch upright(const Box3& box);

/// A gypsum board by its material's category or protection role; false without a material.
bool is_gypsum(const Project& project, const Part& part);

}  // namespace panel_dossier::structural
