// The program once installed.
#include <catch2/catch.hpp>

#include "tests/sample/sample_build.h"

using namespace panel_dossier;

TEST_CASE("The installed program finds its plugins and schemas under its prefix", "[plain]") {
  const testing::TemporaryFolder folder;
  const auto prefix = folder.path() / "prefix";
  REQUIRE(run_command("cmake --install '" PANEL_DOSSIER_BINARY_DIR "' --prefix " + quoted(prefix)).status == 0);
  const auto program = prefix / "bin" / "panel-dossier";
  const CommandResult plugins = run_command(quoted(program) + " plugins");
  INFO(plugins.err);
  CHECK(plugins.status == 0);
  CHECK_THAT(plugins.out, Catch::Matchers::Contains((prefix / "lib").string()));
  CHECK(run_command(quoted(program) + " check " + quoted(sample_export())).status == 0);
}
