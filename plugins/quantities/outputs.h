// The rows of quantities.csv, cutting.csv, deliveries.csv and batches.csv, as outputs.json declares their columns.
#pragma once

#include <string_view>
#include <vector>

#include "core/api/plugin.h"

namespace panel_dossier::quantities {

/// The rows that one panel adds to `output`; none for a name that outputs.json does not hold.
std::vector<OutputRow> panel_rows(std::string_view output, const Project& project, const PanelFindings& panel);

/// The rows behind those of the panels, from the findings of the project, and of its register of batches.
std::vector<OutputRow> project_rows(std::string_view output, const Project& project,
                                    const std::vector<Finding>& findings);

}  // namespace panel_dossier::quantities
