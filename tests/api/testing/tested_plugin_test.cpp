// Loading a plugin's shared object for a test: what is refused. Sound ones are loaded by the tests of every plugin.
#include "core/api/testing/tested_plugin.h"

#include <catch2/catch.hpp>

#include "core/api/testing/temporary_folder.h"

using namespace panel_dossier::testing;

TEST_CASE("A file that is no shared object is refused by its name") {
  const TemporaryFolder folder;
  const auto file = folder.write("plain.so", "no shared object");
  CHECK_THROWS_WITH(LoadedPlugin(file), Catch::Contains("cannot load " + file.string()));
  CHECK_THROWS_WITH(LoadedPlugin(folder.path() / "absent.so"), Catch::Contains("absent.so"));
}
