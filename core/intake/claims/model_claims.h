// What the export says of a panel, held against the panel's own model.
#pragma once

#include "core/api/model/project.h"
#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

/// Fills Panel::contradictions of every panel: layers that the parts do not bear out, and parts that cannot stand where
/// they are, among them the panels that stand in one another. Each is reported once, for the first panel that has it,
/// with the number of panels. Withholds a serial number that several panels have, with a warning that names them.
void find_contradictions(Project& project, Reporter& report);

}  // namespace panel_dossier
