// A few panels of the sample as a project of their own.
#pragma once

#include <string>

#include "core/api/testing/temporary_folder.h"
#include "core/intake/inputs.h"

namespace panel_dossier::testing {

/// Writes `project.ifcxml` with the panels of those marks, separated by commas, and beside it the sample's settings,
/// the tables that they name and the evidence. Throws std::runtime_error when the sample's generator fails.
void write_sample_panels(const TemporaryFolder& folder, const std::string& marks);

/// How to read that project: with what the plugins of this source tree declare, as on the sample's day.
InputOptions sample_panels_options(const TemporaryFolder& folder);

}  // namespace panel_dossier::testing
