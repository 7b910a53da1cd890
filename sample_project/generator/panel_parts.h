// What a panel is made of: every part as a box in the panel's frame, and its fasteners.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sample_project/generator/building.h"
#include "sample_project/generator/shapes.h"

namespace sample_export {

enum class PartRole { stud, rail, post, lintel, blocking, batten, sheet, membrane, insulation, cladding };

/// Direction in which the part's section is extruded: a member's length, a sheet's thickness.
enum class Axis { x, y, z };

struct PanelPart {
  PartRole role;
  std::string name;
  std::string_view material_key;
  Box box;
  Axis axis;
  /// Of a sheet with a cut-out, in x and z; of an upright member with a bevelled end, extruded along x, in y and z.
  /// Empty: the whole box.
  Outline outline = {};
  std::string holes = {};  ///< Panel_Member.Holes; empty: none
};

enum class FastenerKind { screw, nail, cladding_screw, batten_screw, bracket, lifting_loop, tie_down, cavity_barrier };

/// Fasteners of one kind in one panel.
struct FastenerGroup {
  FastenerKind kind = FastenerKind::screw;
  std::string name;
  std::string product;                      ///< Panel_Fastener.Type
  double diameter_mm = 0.0;                 ///< of a screw or nail
  double length_mm = 0.0;                   ///< likewise
  double spacing_mm = 0.0;                  ///< 0: none stated
  double intermediate_spacing_mm = 0.0;     ///< on studs between the edges of a sheet; 0: none stated
  double edge_distance_mm = 0.0;            ///< 0: none stated
  double tensile_strength_n_per_mm2 = 0.0;  ///< 0: none stated
  int count = 0;
  double mass_each_kg = 0.0;
  int screws_per_piece = 0;  ///< of a bracket or lifting loop in timber; 0: none stated
  double screw_diameter_mm = 0.0;
  double screw_penetration_mm = 0.0;
  double head_diameter_mm = 0.0;        ///< of a screw of cladding or battens
  double pull_through_n_per_mm2 = 0.0;  ///< likewise, declared
  double withdrawal_n = 0.0;            ///< likewise, declared; 0: by its thread
  double working_load_limit_n = 0.0;    ///< of a lifting loop
  double design_tension_n = 0.0;        ///< of a bracket or tie-down
  double design_shear_n = 0.0;          ///< likewise
  double adjustment_mm = 0.0;           ///< likewise
  Box zone;                             ///< within which they are placed
};

struct PanelContent {
  std::vector<PanelPart> parts;
  std::vector<FastenerGroup> fasteners;
};

PanelContent panel_content(const PlacedPanel& panel);

}  // namespace sample_export
