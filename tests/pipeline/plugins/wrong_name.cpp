#include "tests/pipeline/plugins/example_plugin.h"

namespace {

class WrongName final : public panel_dossier::example::ExamplePlugin {
 public:
  explicit WrongName(const std::filesystem::path& /*data_dir*/) : ExamplePlugin("another") {}
};

}  // namespace

PANEL_DOSSIER_PLUGIN(WrongName, "wrong_name");
