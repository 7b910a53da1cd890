// Does what the name of a panel or of the project says.
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <iostream>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "tests/pipeline/plugins/example_plugin.h"

namespace {

using namespace panel_dossier;

void do_as_named(const std::string& name) {
  if (name == "exits") std::exit(0);
  if (name == "ends at once") ::_exit(7);
  if (name == "aborts") std::abort();
  if (name == "crashes") std::raise(SIGSEGV);
  if (name == "hangs") {
    for (;;) ::pause();
  }
  if (name == "eats memory") {
    // Asked for and not touched, which is what the limit counts: to fill it takes seconds on a busy machine.
    std::vector<std::unique_ptr<char[]>> eaten;
    for (;;) eaten.push_back(std::make_unique_for_overwrite<char[]>(std::size_t{64} << 20));
  }
  if (name == "throws a number") throw 42;
  if (name == "talks") std::cout << "to where the program prints the name of the dossier\n" << std::flush;
}

class MisbehavingRun final : public example::ExampleRun {
 public:
  MisbehavingRun(std::vector<CheckDeclaration> checks, std::string project)
      : ExampleRun(std::move(checks)), project_(std::move(project)) {}

  CheckOutcome check_panel(const Panel& panel) const override {
    do_as_named(panel.name);
    return ExampleRun::check_panel(panel);
  }

  CheckOutcome check_project(const std::vector<PanelFindings>& panels) const override {
    if (project_.rfind("project ", 0) == 0) do_as_named(project_.substr(8));
    return ExampleRun::check_project(panels);
  }

 private:
  std::string project_;
};

class Misbehaving final : public example::ExamplePlugin {
 public:
  explicit Misbehaving(const std::filesystem::path& /*data_dir*/) : ExamplePlugin("misbehaving") {}

  std::unique_ptr<PluginRun> prepare(const Project& project, const Settings& /*settings*/) const override {
    if (project.name.rfind("start ", 0) == 0) do_as_named(project.name.substr(6));
    return std::make_unique<MisbehavingRun>(checks_, project.name);
  }
};

}  // namespace

PANEL_DOSSIER_PLUGIN(Misbehaving, "misbehaving");
