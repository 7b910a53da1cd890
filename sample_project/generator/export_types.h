// Panel, window and door types with what holds for every panel of the type.
#pragma once

#include "sample_project/generator/ifc_writer.h"

namespace sample_export {

/// IfcWallType, IfcWindowType and IfcDoorType, to stand within RelatedDefinitions of the project's IfcRelDeclares.
void write_types(IfcWriter& ifc);

}  // namespace sample_export
