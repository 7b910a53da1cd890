#include "tests/pipeline/plugins/example_plugin.h"

namespace {

class UndeclaredTitle final : public panel_dossier::example::ExamplePlugin {
 public:
  explicit UndeclaredTitle(const std::filesystem::path& /*data_dir*/) : ExamplePlugin("undeclared_title") {
    checks_[1].title.clear();
  }
};

}  // namespace

PANEL_DOSSIER_PLUGIN(UndeclaredTitle, "undeclared_title");
