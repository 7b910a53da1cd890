// What a build reads before it computes anything.
#pragma once

#include <vector>

#include "core/cli/build/build.h"
#include "core/dossier/guidance/duty_tables.h"
#include "core/intake/inputs.h"
#include "core/pipeline/plugin_host.h"

namespace panel_dossier {

/// Everything that a build reads, or why it reads nothing.
struct BuildInputs {
  PluginFolder plugins;
  Inputs inputs;
  std::vector<HexDigest> hashes;  ///< `data_hashes` of the project as exported
  GuidanceTables guidance;        ///< the program's and the plugins', with the practice's over them
};

/// Reads the inputs with the plugins that `read` holds, of which those that the settings do not allow are then refused.
/// Throws std::runtime_error when the export cannot be read at all.
void read_build_inputs(const BuildOptions& options, BuildInputs& read);

/// The same for a command without a log: prints what is wrong with the inputs. False when they are refused, so that
/// nothing was `done` (`written`, `computed`), which is printed too.
bool print_build_inputs(const BuildOptions& options, BuildInputs& read, const char* done);

}  // namespace panel_dossier
