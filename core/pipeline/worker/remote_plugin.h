// A plugin whose code runs in worker processes, so that whatever it does costs no more than the findings it was asked
// for.
#pragma once

#include <chrono>
#include <cstddef>
#include <filesystem>
#include <functional>

#include "core/api/plugin.h"
#include "core/pipeline/plugin_host.h"

namespace panel_dossier {

/// What the code of a plugin may take before it is given up.
struct WorkerLimits {
  std::chrono::seconds panel{300};                  ///< for one panel
  std::size_t memory_bytes = std::size_t{8} << 30;  ///< of each process, beyond what the project takes; 0: no limit

  /// To start on a project, and for the project's check.
  std::chrono::seconds whole() const { return 12 * panel; }
};

/// A run that can be handed the findings of one panel after another for the check of the project, so that this process
/// need not hold them all.
class PanelwiseRun : public PluginRun {
 public:
  /// As `check_project` with those that `findings_of` gives for 0 to `panels` - 1.
  virtual CheckOutcome check_project_panelwise(std::size_t panels,
                                               const std::function<PanelFindings(std::size_t)>& findings_of) const = 0;
};

/// As `load_plugin`, but the plugin's code never runs in this process: not when it is loaded, nor in any call. A call
/// that ends its worker, hangs or asks for too much memory throws std::runtime_error saying so, and the next call has a
/// new worker. The runs that the plugin prepares are thread-safe and a PanelwiseRun; prepare them while this process
/// has one thread.
LoadedPlugin load_plugin_in_worker(const std::filesystem::path& file, const WorkerLimits& limits);

}  // namespace panel_dossier
