#include "tests/pipeline/plugins/example_plugin.h"

namespace {

class Sound final : public panel_dossier::example::ExamplePlugin {
 public:
  explicit Sound(const std::filesystem::path& /*data_dir*/) : ExamplePlugin("sound") {}
};

}  // namespace

PANEL_DOSSIER_PLUGIN(Sound, "sound");
