#include "core/pipeline/plugin_host.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "core/api/testing/temporary_folder.h"

using namespace panel_dossier;
namespace fs = std::filesystem;

namespace {

fs::path built(const std::string& name) {
  return fs::path(PANEL_DOSSIER_TEST_PLUGIN_DIR) / (name + ".so");
}

/// The only message about the shared object `name` when it lies alone in a folder.
std::string refusal_of(const std::string& name) {
  const testing::TemporaryFolder folder;
  fs::copy_file(built(name), folder.path() / (name + ".so"));
  const PluginFolder loaded = load_plugins(folder.path());
  REQUIRE(loaded.plugins.empty());
  REQUIRE(loaded.refused.size() == 1);
  const std::string named = "plugin '" + (folder.path() / (name + ".so")).string() + "' ";
  REQUIRE(loaded.refused.front().rfind(named, 0) == 0);
  return loaded.refused.front().substr(named.size());
}

}  // namespace

TEST_CASE("A sound plugin is loaded with its information and data folder") {
  const testing::TemporaryFolder folder;
  fs::copy_file(built("sound"), folder.path() / "sound.so");
  const PluginFolder loaded = load_plugins(folder.path());
  CHECK(loaded.refused.empty());
  REQUIRE(loaded.plugins.size() == 1);
  CHECK(loaded.plugins[0].info.id == "sound");
  CHECK(loaded.plugins[0].data_dir == folder.path() / "sound");
}

TEST_CASE("Two plugins of one id leave the first by file name and refuse the second") {
  const testing::TemporaryFolder folder;
  fs::copy_file(built("sound"), folder.path() / "a.so");
  fs::copy_file(built("sound"), folder.path() / "b.so");
  const PluginFolder loaded = load_plugins(folder.path());
  REQUIRE(loaded.plugins.size() == 1);
  CHECK(loaded.plugins[0].file == folder.path() / "a.so");
  REQUIRE(loaded.refused.size() == 1);
  CHECK(loaded.refused[0] == "plugin '" + (folder.path() / "b.so").string() + "' has the id 'sound' of '" +
                                 (folder.path() / "a.so").string() + "'; remove one of the two");
}

TEST_CASE("A plugin of another api version is refused before its code runs") {
  CHECK(refusal_of("old_api") == "was built for api version " + std::to_string(kApiVersion + 1) +
                                     ", this program has " + std::to_string(kApiVersion) +
                                     "; rebuild the plugin against this program's core/api");
}

TEST_CASE("A shared object without the entry symbol is refused") {
  CHECK(refusal_of("no_entry") == "does not export 'panel_dossier_plugin'; declare it with PANEL_DOSSIER_PLUGIN");
}

TEST_CASE("A plugin whose constructor throws is refused with its message") {
  CHECK_THAT(refusal_of("throwing_constructor"),
             Catch::Matchers::StartsWith("could not start: limits.csv:3: empty key; check its data tables in '"));
}

TEST_CASE("A plugin whose create function returns nothing is refused") {
  CHECK(refusal_of("returns_nothing") == "its create function returned nothing");
}

TEST_CASE("A plugin that states another id than its entry is refused") {
  CHECK(refusal_of("wrong_name") == "calls itself 'another' but its entry says 'wrong_name'; make both the same");
}

TEST_CASE("A file that is no shared object is refused with the way out") {
  const testing::TemporaryFolder folder;
  std::ofstream(folder.path() / "text.so") << "not a shared object\n";
  const PluginFolder loaded = load_plugins(folder.path());
  REQUIRE(loaded.refused.size() == 1);
  CHECK_THAT(loaded.refused[0], Catch::Matchers::Contains("cannot be loaded") &&
                                    Catch::Matchers::EndsWith("; rebuild it against this program's core/api"));
}

TEST_CASE("A plugin folder that does not exist is an error that names it") {
  CHECK_THROWS_WITH(load_plugins("/nonexistent/plugins"),
                    "cannot read plugin folder '/nonexistent/plugins': No such file or directory; give the folder with "
                    "--plugins");
}
