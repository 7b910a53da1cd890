#include <cstdlib>

#include "tests/pipeline/plugins/example_plugin.h"

namespace {

class ExitsWhenLoaded final : public panel_dossier::example::ExamplePlugin {
 public:
  explicit ExitsWhenLoaded(const std::filesystem::path& /*data_dir*/) : ExamplePlugin("exits_when_loaded") {
    std::exit(0);
  }
};

}  // namespace

PANEL_DOSSIER_PLUGIN(ExitsWhenLoaded, "exits_when_loaded");
