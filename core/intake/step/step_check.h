// Whether the instances of a STEP file keep to the grammar and to their schema.
#pragma once

#include "core/intake/document/diagnostics.h"
#include "core/intake/step/step_file.h"

namespace panel_dossier {

/// Goes once through all arguments, on several threads where the file is large. False when one cannot be parsed; the
/// file must not be read further then. Breaches of the schema are reported and leave the file readable: as errors where
/// the entity is read, else gathered into one warning an entity. What is met in the wild and means one thing only
/// (`*` for `$`, an integer for a real) is a remark.
bool check_step(const StepFile& file, Reporter& report);

}  // namespace panel_dossier
