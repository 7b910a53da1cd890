// A plugin whose code runs in worker processes, so that whatever it does costs no more than the findings it was asked
// for.
#pragma once

#include <chrono>
#include <cstddef>
#include <filesystem>

#include "core/pipeline/plugin_host.h"

namespace panel_dossier {

/// What the code of a plugin may take before it is given up.
struct WorkerLimits {
  std::chrono::seconds panel{300};                  ///< for one panel
  std::size_t memory_bytes = std::size_t{8} << 30;  ///< of each process, beyond what the project takes; 0: no limit

  /// To start on a project, and for the project's check.
  std::chrono::seconds whole() const { return 12 * panel; }
};

/// As `load_plugin`, but the plugin's code never runs in this process: not when it is loaded, nor in any call. A call
/// that ends its worker, hangs or asks for too much memory throws std::runtime_error saying so, and the next call has a
/// new worker. The runs that the plugin prepares are thread-safe; prepare them while this process has one thread.
LoadedPlugin load_plugin_in_worker(const std::filesystem::path& file, const WorkerLimits& limits);

}  // namespace panel_dossier
