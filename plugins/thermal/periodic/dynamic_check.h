// Dynamic thermal characteristics of one panel for a period of a day.
#pragma once

#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "plugins/thermal/transmittance/transmittance.h"

namespace panel_dossier::thermal {

extern const CheckDeclaration kDynamicTransmittanceCheck;
extern const CheckDeclaration kDecrementCheck;
extern const CheckDeclaration kArealHeatCapacityCheck;

/// `thermal.dynamic_transmittance`, `thermal.decrement` and `thermal.areal_heat_capacity` (EN ISO 13786:2017, 7), as
/// information. All are those of the largest section; thermal bridges are left out of dynamic characteristics.
std::vector<Finding> check_dynamic_characteristics(const Panel& panel, const Project& project,
                                                   const TransmittanceResult& panel_transmittance);

}  // namespace panel_dossier::thermal
