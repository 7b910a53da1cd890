#include "tests/pipeline/plugins/example_plugin.h"

namespace {

class CheckedContainers final : public panel_dossier::example::ExamplePlugin {
 public:
  explicit CheckedContainers(const std::filesystem::path& /*data_dir*/) : ExamplePlugin("checked_containers") {}
};

}  // namespace

PANEL_DOSSIER_PLUGIN(CheckedContainers, "checked_containers");
