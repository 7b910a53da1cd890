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
  Outline outline = {};  ///< of a sheet with a cut-out; empty: the whole box
};

/// Fasteners of one kind in one panel.
struct FastenerGroup {
  std::string name;
  std::string predefined_type;  ///< value of IfcMechanicalFastenerTypeEnum
  std::string object_type;      ///< where the enumeration has no value
  std::string product;          ///< Panel_Fastener.Type
  double diameter_mm;
  double length_mm;
  double spacing_mm;  ///< 0: none stated
  int count;
  double mass_each_kg;
  Box zone;  ///< within which they are placed
};

struct PanelContent {
  std::vector<PanelPart> parts;
  std::vector<FastenerGroup> fasteners;
};

PanelContent panel_content(const PlacedPanel& panel);

}  // namespace sample_export
