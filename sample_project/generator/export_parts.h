// The parts and fasteners of a panel as IFC elements.
#pragma once

#include <string>

#include "sample_project/generator/ifc_writer.h"
#include "sample_project/generator/panel_parts.h"

namespace sample_export {

/// IsDecomposedBy of the panel with everything in it. `owner` is the path of the panel's GlobalId, `placement_id` the
/// id of its placement, `batch` the number of the production batch it belongs to.
void write_parts(IfcWriter& ifc, const PanelContent& content, const std::string& owner, const std::string& placement_id,
                 int batch);

}  // namespace sample_export
