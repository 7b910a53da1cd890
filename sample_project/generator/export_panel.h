// One panel as an IfcWall with its type, layers, property sets, parts, openings and evidence.
#pragma once

#include <string>

#include "sample_project/generator/building.h"
#include "sample_project/generator/ifc_writer.h"

namespace sample_export {

/// Path of the panel's GlobalId.
std::string panel_owner(const PlacedPanel& panel);
/// Id of the element that fills an opening of the panel.
std::string filling_id(const PlacedPanel& panel, std::size_t opening);
const char* filling_entity(const FillingSpec& filling);

/// To stand within RelatedElements of its storey, whose placement has the id `storey_placement_id`.
void write_panel(IfcWriter& ifc, const PlacedPanel& panel, const std::string& storey_placement_id);

}  // namespace sample_export
