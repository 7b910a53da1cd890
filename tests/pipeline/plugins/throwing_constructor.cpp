#include <stdexcept>

#include "tests/pipeline/plugins/example_plugin.h"

namespace {

class ThrowingConstructor final : public panel_dossier::example::ExamplePlugin {
 public:
  explicit ThrowingConstructor(const std::filesystem::path& /*data_dir*/) : ExamplePlugin("throwing_constructor") {
    throw std::runtime_error("limits.csv:3: empty key");
  }
};

}  // namespace

PANEL_DOSSIER_PLUGIN(ThrowingConstructor, "throwing_constructor");
