// What a cutting plan loses beside the waste that the carbon account counts.
#pragma once

#include <map>
#include <string_view>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "plugins/quantities/cutting/part_names.h"

namespace panel_dossier::quantities {

/// Volumes of one material by the plan, in m³.
struct PlannedVolume {
  double built_in_m3 = 0.0;
  double bought_m3 = 0.0;
};

using PlannedVolumes = std::map<MaterialKey, PlannedVolume>;

/// By which `planned_volumes_in` finds the table.
inline constexpr std::string_view kLossTable = "planned_loss";

/// One row a material: the share of what is bought that the plan loses, and Panel_EnvironmentalDeclaration.WasteRateA5,
/// the same share as carbon.a5 reads it. A remark where the plan loses more, by 0.05 % or more as printed, or where no
/// usable rate is declared.
Table loss_table(const Project& project, const PlannedVolumes& volumes);

extern const CheckDeclaration kWasteCheck;

/// The declared waste of each material of the plans `stock` and `sheets`, the project's findings of stock and sheet
/// yield, against their loss: at least that, but for a percentage point.
Finding waste_against_plans(const Project& project, const Finding& stock, const Finding& sheets);

}  // namespace panel_dossier::quantities
