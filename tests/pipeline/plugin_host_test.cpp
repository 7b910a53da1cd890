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
  const PluginFolder loaded = load_plugins({folder.path()});
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
  const PluginFolder loaded = load_plugins({folder.path()});
  CHECK(loaded.refused.empty());
  REQUIRE(loaded.plugins.size() == 1);
  CHECK(loaded.plugins[0].info.id == "sound");
  CHECK(loaded.plugins[0].data_dir == folder.path() / "sound");
}

TEST_CASE("Two plugins of one id leave the first by file name and refuse the second") {
  const testing::TemporaryFolder folder;
  fs::copy_file(built("sound"), folder.path() / "a.so");
  fs::copy_file(built("sound"), folder.path() / "b.so");
  const PluginFolder loaded = load_plugins({folder.path()});
  REQUIRE(loaded.plugins.size() == 1);
  CHECK(loaded.plugins[0].file == folder.path() / "a.so");
  REQUIRE(loaded.refused.size() == 1);
  CHECK(loaded.refused[0] == "plugin '" + (folder.path() / "b.so").string() + "' has the id 'sound' of '" +
                                 (folder.path() / "a.so").string() + "'; remove one of the two");
}

TEST_CASE("A plugin of another kit, an older entry or other flags is refused before its code runs") {
  CHECK(refusal_of("other_kit") == "was built with kit 0123456789ab, this program has " +
                                       std::string(kKitHash).substr(0, 12) +
                                       "; build the plugin again with the kit that is installed beside this program");
  CHECK(refusal_of("old_entry") == "was built with entry layout 3, this program has " + std::to_string(kEntryLayout) +
                                       "; build the plugin again with the kit that is installed beside this program");
  CHECK_THAT(refusal_of("checked_containers"),
             Catch::Matchers::StartsWith("was compiled as 'gxx-abi ") &&
                 Catch::Matchers::Contains("checked containers") &&
                 Catch::Matchers::EndsWith(", this program as '" + std::string(kAbi) +
                                           "'; compile the plugin with the same compiler and flags"));
}

TEST_CASE("A plugin whose declarations break the contract is refused") {
  CHECK(refusal_of("undeclared_title") ==
        "declares a check that cannot be taken: check 'undeclared_title.area' has no title; mend its declaration");
}

TEST_CASE("Of two plugins that claim one role the first keeps it and the second is refused") {
  const testing::TemporaryFolder folder;
  fs::copy_file(built("weighing"), folder.path() / "a.so");
  fs::copy_file(built("weighing_too"), folder.path() / "b.so");
  const PluginFolder loaded = load_plugins({folder.path()});
  REQUIRE(loaded.plugins.size() == 1);
  CHECK(loaded.plugins[0].info.id == "weighing");
  CHECK(loaded.refused ==
        std::vector<std::string>{"plugin '" + (folder.path() / "b.so").string() + "' claims the role 'mass' of '" +
                                 (folder.path() / "a.so").string() + "'; remove one of the two"});
}

TEST_CASE("Plugins come from several folders, and the first folder wins") {
  const testing::TemporaryFolder own;
  const testing::TemporaryFolder further;
  fs::copy_file(built("sound"), own.path() / "sound.so");
  fs::copy_file(built("weighing"), further.path() / "weighing.so");
  fs::copy_file(built("sound"), further.path() / "another.so");
  const PluginFolder loaded = load_plugins({own.path(), further.path()});
  REQUIRE(loaded.plugins.size() == 2);
  CHECK(loaded.plugins[0].file == own.path() / "sound.so");
  CHECK(loaded.plugins[1].info.id == "weighing");
  REQUIRE(loaded.refused.size() == 1);
  CHECK_THAT(loaded.refused[0], Catch::Matchers::Contains("another.so' has the id 'sound'"));
}

namespace {

/// The only refusal of the sound plugin with a file of that text in its folder.
std::string refusal_with(const std::string& name, const std::string& text) {
  const testing::TemporaryFolder folder;
  fs::copy_file(built("sound"), folder.path() / "sound.so");
  fs::create_directory(folder.path() / "sound");
  std::ofstream(folder.path() / "sound" / name) << text;
  const PluginFolder loaded = load_plugins({folder.path()});
  REQUIRE(loaded.plugins.empty());
  REQUIRE(loaded.refused.size() == 1);
  const std::string before = "plugin '" + (folder.path() / "sound.so").string() + "' has a broken '" +
                             (folder.path() / "sound" / name).string() + "': ";
  REQUIRE(loaded.refused[0].rfind(before, 0) == 0);
  return loaded.refused[0].substr(before.size());
}

std::string outputs_with(const std::string& columns) {
  return R"({"outputs": [{"file": "areas.csv", "title": "Areas", "description": "One row a panel.", "columns": [)" +
         columns + "]}]}";
}

}  // namespace

TEST_CASE("A broken guidance.csv refuses the plugin, with the line and what is wrong") {
  const std::string head = "id,topic,of,when,text,who,interval_years,source\n";
  CHECK_THAT(refusal_with("guidance.csv", head + "sound.a,safety.risk,project,,Take {care.,,,common practice\n"),
             Catch::Matchers::Contains("guidance.csv:2: a brace is not closed"));
  CHECK(refusal_with("guidance.csv", head + "a,safety.risk,project,,Take care.,,,common practice\n") ==
        "line 2: the id 'a' does not begin with 'sound.'; mend the file");
}

TEST_CASE("A broken outputs.json refuses the plugin, with what is wrong") {
  CHECK(refusal_with("outputs.json", "{") == "it is not valid JSON; mend the file");
  CHECK(refusal_with("outputs.json", "{}") == "it has no list 'outputs'; mend the file");
  CHECK(refusal_with("outputs.json", outputs_with("")) == "output 'areas.csv' has no list 'columns'; mend the file");
  CHECK(refusal_with("outputs.json", outputs_with(R"({"name": "mark"})")) ==
        "output 'areas.csv': column 'mark' has no text 'meaning'; mend the file");
  CHECK(refusal_with("outputs.json", outputs_with(R"({"name": "a", "meaning": "b"}, {"name": "a", "meaning": "c"})")) ==
        "output 'areas.csv' has the column 'a' twice; mend the file");
  CHECK(refusal_with("outputs.json", R"({"outputs": [{"file": "../results.csv"}]})") ==
        "output '../results.csv' is not named in lower-case letters, digits, '_' and '-' before '.csv'; mend the file");
}

TEST_CASE("A broken written_back.json refuses the plugin, with what is wrong") {
  CHECK(refusal_with("written_back.json", "{}") == "it has no list 'written_back'; mend the file");
}

TEST_CASE(
    "Of two plugins that write one output or one property the first keeps it, others of a set may be shared out") {
  const testing::TemporaryFolder folder;
  fs::copy_file(built("sound"), folder.path() / "a.so");
  fs::copy_file(built("weighing"), folder.path() / "b.so");
  const auto refused_with = [&](const std::string& file, const std::string& first, const std::string& second) {
    folder.write("sound/" + file, first);
    folder.write("weighing/" + file, second);
    std::vector<std::string> refused = load_plugins({folder.path()}).refused;
    fs::remove(folder.path() / "sound" / file);
    fs::remove(folder.path() / "weighing" / file);
    return refused;
  };
  const auto row = [](const std::string& check, const std::string& property) {
    return R"({"written_back": [{"check": ")" + check + R"(", "set": "Pset_WallCommon", "property": ")" + property +
           R"(", "meaning": "M"}]})";
  };
  const std::string who = "plugin '" + (folder.path() / "b.so").string() + "' ";
  const std::string whose = "' of '" + (folder.path() / "a.so").string() + "'; remove one of the two";
  CHECK(refused_with("written_back.json", row("sound.a", "FireRating"), row("weighing.a", "FireRating")) ==
        std::vector<std::string>{who + "writes back 'Pset_WallCommon.FireRating" + whose});
  CHECK(refused_with("written_back.json", row("sound.a", "FireRating"), row("weighing.a", "AcousticRating")).empty());
  const std::string areas = outputs_with(R"({"name": "mark", "meaning": "of the panel"})");
  std::string masses = areas;
  masses.replace(masses.find("areas.csv"), 9, "masses.csv");
  CHECK(refused_with("outputs.json", areas, areas) ==
        std::vector<std::string>{who + "writes the output 'areas.csv" + whose});
  CHECK(refused_with("outputs.json", areas, masses).empty());
}

TEST_CASE("A broken settings schema refuses the plugin") {
  CHECK_THAT(refusal_with("settings.schema.json", "{"), Catch::Matchers::EndsWith("; mend the file"));
  CHECK_THAT(refusal_with("settings.schema.json", "[]"), Catch::Matchers::EndsWith("; mend the file"));
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
  const PluginFolder loaded = load_plugins({folder.path()});
  REQUIRE(loaded.refused.size() == 1);
  CHECK_THAT(loaded.refused[0], Catch::Matchers::Contains("cannot be loaded") &&
                                    Catch::Matchers::EndsWith("; rebuild it against this program's core/api"));
}

TEST_CASE("A plugin folder that does not exist is an error that names it") {
  CHECK_THROWS_WITH(load_plugins({"/nonexistent/plugins"}),
                    "cannot read plugin folder '/nonexistent/plugins': No such file or directory; give the folder with "
                    "--plugins");
}
