// The rows of carbon.csv, from findings.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/api/plugin.h"
#include "plugins/carbon/run_inputs.h"

namespace panel_dossier::carbon {

inline constexpr const char* kCarbonOutput = "carbon.csv";

/// One row a module and indicator of global warming from `carbon.whole_life`, then one a group of modules and core
/// indicator from the whole sums of `carbon.core_indicators`. `mark` and `type` stand in the first two cells.
std::vector<OutputRow> carbon_rows(const std::string& mark, const std::string& type,
                                   const std::vector<Finding>& findings, const Tables& tables);

}  // namespace panel_dossier::carbon
