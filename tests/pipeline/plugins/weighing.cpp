#include "tests/pipeline/plugins/example_plugin.h"

namespace {

/// Claims a role; a second object of this source under another id claims it too.
class Weighing final : public panel_dossier::example::ExamplePlugin {
 public:
  explicit Weighing(const std::filesystem::path& /*data_dir*/) : ExamplePlugin(PANEL_DOSSIER_TEST_PLUGIN_ID) {
    checks_[1].role = "mass";
  }
};

}  // namespace

PANEL_DOSSIER_PLUGIN(Weighing, PANEL_DOSSIER_TEST_PLUGIN_ID);
