// The design values in the export beside tabulated and converted ones.
#pragma once

#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/thermal/tables.h"

namespace panel_dossier::thermal {

/// `thermal.design_values` of the project, as information: by how many per cent the tabulated (EN ISO 10456:2007, table
/// 3) or converted conductivity exceeds the one in the export, at most. A material is compared when
/// Panel_Thermal.DesignValueClass, or the setting `thermal.design_value_classes.NAME`, names its row, and converted
/// when it has Panel_Thermal.DeclaredConductivity and ConversionClass. Not assessed when no material is compared or
/// anything that was named is missing.
Finding check_design_values(const Project& project, const Settings& settings, const Tables& tables);

}  // namespace panel_dossier::thermal
