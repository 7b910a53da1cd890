// What the scaffold writes, into a new folder, a plugin's folder and this repository, and what it refuses.
#include <catch2/catch.hpp>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>
#include <sstream>
#include <string>

#include "tests/sample/sample_build.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

CommandResult scaffold(const std::string& id, const fs::path& folder) {
  return run_command(quoted(PANEL_DOSSIER_PROGRAM) + " scaffold " + id + " --into " + quoted(folder));
}

/// Every file below the folder, by its path from there.
std::map<std::string, std::string> files_in(const fs::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file()) files[fs::relative(entry.path(), folder).string()] = text_of(entry.path());
  }
  return files;
}

std::set<std::string> names_of(const std::map<std::string, std::string>& files) {
  std::set<std::string> names;
  for (const auto& [name, text] : files) names.insert(name);
  return names;
}

/// The lines of `after` that `before` does not have, each as often as it is new; `before` must stand in `after` in its
/// order.
std::string added_lines(const std::string& before, const std::string& after) {
  std::istringstream old_lines(before);
  std::istringstream new_lines(after);
  std::string added;
  std::string expected;
  bool is_left = static_cast<bool>(std::getline(old_lines, expected));
  for (std::string line; std::getline(new_lines, line);) {
    if (is_left && line == expected) {
      is_left = static_cast<bool>(std::getline(old_lines, expected));
    } else {
      added += line + '\n';
    }
  }
  CHECK_FALSE(is_left);
  return added;
}

/// The plugin as it lies in a repository, without what only a compiler would miss.
fs::path copy_of_plugin(const std::string& name, const testing::TemporaryFolder& root) {
  fs::path copy = root.path() / "plugins" / name;
  fs::create_directories(copy.parent_path());
  fs::copy(fs::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins" / name, copy, fs::copy_options::recursive);
  root.write("core/api/plugin.h", "");
  root.write("tests/" + name + "/support.h", "");
  return copy;
}

}  // namespace

TEST_CASE("A new folder becomes a whole plugin") {
  const testing::TemporaryFolder root;
  const fs::path folder = root.path() / "not/there/yet";
  const CommandResult made = scaffold("wood_shop.face_area", folder);
  INFO(made.err);
  REQUIRE(made.status == 0);
  const auto files = files_in(folder);
  CHECK(names_of(files) == std::set<std::string>{"CMakeLists.txt", "README.md", "checks.cpp", "checks.h", "entry.cpp",
                                                 "face_area.cpp", "face_area.h", "outputs.json", "settings.schema.json",
                                                 "tests/face_area_cases.cpp", "tests/main.cpp"});
  for (const auto& [name, text] : files) {
    INFO(name);
    CHECK_FALSE(std::regex_search(text, std::regex("@[A-Z_]+@")));
    CHECK(text.ends_with("\n"));
    CHECK_THAT(made.out, Contains("new:     " + (fs::canonical(folder) / name).string()));
  }
  CHECK_THAT(files.at("entry.cpp"), Contains("PANEL_DOSSIER_PLUGIN(panel_dossier::wood_shop::WoodShopPlugin, "));
  CHECK_THAT(files.at("face_area.cpp"), Contains(".title = \"Face area\""));
  CHECK_THAT(files.at("checks.cpp"), Contains("      kFaceAreaCheck,\n      // The scaffold enters"));
  CHECK_THAT(files.at("README.md"), Contains("<!-- checks -->\n### `wood_shop.face_area` Face area\n"));
}

TEST_CASE("An empty folder becomes a plugin too, however its path is written") {
  const testing::TemporaryFolder root;
  fs::create_directory(root.path() / "empty");
  CHECK(scaffold("workshop.face_area", root.path() / "." / "empty" / "").status == 0);
  CHECK(fs::exists(root.path() / "empty/entry.cpp"));
}

TEST_CASE("A folder in plugins/ elsewhere, or beside plugins/ in the repository, is a plugin by itself") {
  const testing::TemporaryFolder root;
  CHECK(scaffold("workshop.face_area", root.path() / "plugins" / "workshop").status == 0);
  CHECK(fs::exists(root.path() / "plugins/workshop/tests/face_area_cases.cpp"));
  root.write("core/api/plugin.h", "");
  CHECK(scaffold("workshop.face_area", root.path() / "others" / "workshop").status == 0);
  CHECK(fs::exists(root.path() / "others/workshop/tests/face_area_cases.cpp"));
}

TEST_CASE("A plugin's folder gets one more check, with everything entered where it belongs") {
  const testing::TemporaryFolder root;
  const fs::path folder = root.path() / "workshop";
  REQUIRE(scaffold("workshop.face_area", folder).status == 0);
  const auto before = files_in(folder);
  const CommandResult added = scaffold("workshop.depth", folder);
  INFO(added.err);
  REQUIRE(added.status == 0);
  auto after = files_in(folder);
  CHECK(added_lines(before.at("checks.cpp"), after.at("checks.cpp")) ==
        "#include \"depth.h\"\n      kDepthCheck,\n"
        "  outcome.findings.push_back(check_depth(panel, settings));\n");
  CHECK_THAT(after.at("checks.cpp"), Contains("#include \"depth.h\"\n#include \"face_area.h\"\n"));
  CHECK_THAT(after.at("README.md"), Contains("\n\n### `workshop.depth` Depth\n"));
  const auto settings = nlohmann::ordered_json::parse(after.at("settings.schema.json")).at("properties");
  REQUIRE(settings.size() == 2);
  CHECK(settings.begin().key() == "face_area_limit_m2");
  CHECK(settings.contains("depth_limit_m2"));
  for (const char* name : {"depth.h", "depth.cpp", "tests/depth_cases.cpp"}) CHECK(after.erase(name) == 1);
  CHECK(names_of(after) == names_of(before));
  for (const auto& [name, text] : before) {
    const bool may_change = name == "checks.cpp" || name == "README.md" || name == "settings.schema.json";
    INFO(name);
    CHECK((after.at(name) != text) == may_change);
  }
}

TEST_CASE("In the repository the cases go to the tests of the discipline, and nothing else is touched") {
  const testing::TemporaryFolder root;
  const fs::path fire = copy_of_plugin("fire", root);
  const auto before = files_in(root.path());
  const CommandResult added = scaffold("fire.gap_width", fire);
  INFO(added.err);
  REQUIRE(added.status == 0);
  auto after = files_in(root.path());
  CHECK(added_lines(before.at("plugins/fire/checks.cpp"), after.at("plugins/fire/checks.cpp")) ==
        "#include \"plugins/fire/gap_width.h\"\n      kGapWidthCheck,\n"
        "  findings.push_back(check_gap_width(panel, settings));\n");
  CHECK_THAT(after.at("plugins/fire/gap_width.cpp"), Contains("#include \"plugins/fire/gap_width.h\"\n"));
  // The setting stands behind the others, in a line of its own.
  const std::string setting = added_lines(
      before.at("plugins/fire/settings.schema.json"),
      std::regex_replace(after.at("plugins/fire/settings.schema.json"), std::regex(",\n    \"gap"), "\n    \"gap"));
  CHECK(setting.starts_with("    \"gap_width_limit_m2\": {"));
  for (const char* name :
       {"plugins/fire/gap_width.h", "plugins/fire/gap_width.cpp", "tests/fire/gap_width_cases.cpp"}) {
    CHECK(after.erase(name) == 1);
  }
  CHECK(names_of(after) == names_of(before));
}

TEST_CASE("Every plugin of the repository is marked for further checks") {
  std::size_t plugins = 0;
  for (const auto& entry : fs::directory_iterator(fs::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins")) {
    if (!fs::exists(entry.path() / "entry.cpp")) continue;
    ++plugins;
    const std::string name = entry.path().filename().string();
    const testing::TemporaryFolder root;
    const fs::path plugin = copy_of_plugin(name, root);
    const std::string pages = text_of(plugin / "README.md");
    const CommandResult added = scaffold(name + ".made_by_scaffold", plugin);
    INFO(name << ": " << added.err);
    CHECK(added.status == 0);
    CHECK_THAT(added_lines(text_of(entry.path() / "checks.cpp"), text_of(plugin / "checks.cpp")),
               Contains("kMadeByScaffoldCheck,") && Contains("check_made_by_scaffold(panel, "));
    CHECK_THAT(added_lines(pages, text_of(plugin / "README.md")), Contains("`" + name + ".made_by_scaffold`"));
  }
  CHECK(plugins >= 5);
}

TEST_CASE("In the repository a new discipline has neither build file nor test program of its own") {
  const testing::TemporaryFolder root;
  copy_of_plugin("fire", root);
  REQUIRE(scaffold("workshop.face_area", root.path() / "plugins/workshop").status == 0);
  CHECK(names_of(files_in(root.path() / "plugins/workshop")) ==
        std::set<std::string>{"README.md", "checks.cpp", "checks.h", "entry.cpp", "face_area.cpp", "face_area.h",
                              "outputs.json", "settings.schema.json"});
  CHECK(names_of(files_in(root.path() / "tests/workshop")) == std::set<std::string>{"face_area_cases.cpp"});
  CHECK_THAT(text_of(root.path() / "plugins/workshop/entry.cpp"),
             Contains("#include \"core/api/plugin.h\"\n#include \"plugins/workshop/checks.h\"\n"));
  const CommandResult misplaced = scaffold("workshop.face_area", root.path() / "plugins/other");
  CHECK(misplaced.status == 2);
  CHECK_THAT(misplaced.err, Contains("does not have the name of the discipline 'workshop'"));
}

TEST_CASE("What is no id, or would make code that cannot be compiled, is wrong usage") {
  const testing::TemporaryFolder root;
  for (const char* id : {"workshop", "workshop.", ".face", "Workshop.face", "workshop.face.area", "workshop.face__area",
                         "workshop.face_", "workshop.1st", "workshop.face-area", "''"}) {
    INFO(id);
    const CommandResult refused = scaffold(id, root.path() / "new");
    CHECK(refused.status == 64);
    CHECK_THAT(refused.err, Contains("give DISCIPLINE.NAME"));
  }
  CHECK_THAT(scaffold("class.face", root.path() / "new").err, Contains("give another discipline"));
  CHECK_THAT(scaffold("workshop.limits", root.path() / "new").err, Contains("give the check another name"));
  CHECK_FALSE(fs::exists(root.path() / "new"));
}

TEST_CASE("A discipline that the program has is refused outside of the repository") {
  const testing::TemporaryFolder root;
  const CommandResult refused = scaffold("fire.gap_width", root.path() / "fire");
  CHECK(refused.status == 2);
  CHECK_THAT(refused.err, Contains("'fire' is a discipline of the program itself") && Contains("plugins/fire"));
  CHECK_FALSE(fs::exists(root.path() / "fire"));
}

TEST_CASE("A folder that does not fit is refused and left as it was") {
  const testing::TemporaryFolder root;
  const fs::path workshop = root.path() / "workshop";
  REQUIRE(scaffold("workshop.face_area", workshop).status == 0);
  const auto refusal = [&](const std::string& id, const fs::path& folder) {
    const auto before = files_in(root.path());
    const CommandResult refused = scaffold(id, folder);
    CHECK(refused.status == 2);
    CHECK(files_in(root.path()) == before);
    return refused.err;
  };
  CHECK_THAT(refusal("workshop.face_area", workshop), Contains("'workshop.face_area' is there already, in '"));
  CHECK_THAT(refusal("kitchen.face_area", workshop), Contains("is the plugin 'workshop', whose checks are"));
  fs::rename(workshop / "tests/face_area_cases.cpp", workshop / "tests/depth_cases.cpp");
  CHECK_THAT(refusal("workshop.depth", workshop), Contains("depth_cases.cpp' is there already"));
  fs::remove(workshop / "entry.cpp");
  CHECK_THAT(refusal("workshop.width", workshop), Contains("is neither empty nor the folder of a plugin"));
  CHECK_THAT(refusal("workshop.width", workshop / "README.md"),
             Contains("is neither empty nor the folder of a plugin"));
}

TEST_CASE("A place that is not marked, or a broken schema, is named and nothing is written") {
  const testing::TemporaryFolder root;
  const fs::path workshop = root.path() / "workshop";
  REQUIRE(scaffold("workshop.face_area", workshop).status == 0);
  const auto refusal_after = [&](const std::string& edit) {
    const auto sound = files_in(root.path());
    REQUIRE(run_command("cd " + quoted(workshop) + " && " + edit).status == 0);
    const auto before = files_in(root.path());
    REQUIRE(before != sound);
    const CommandResult refused = scaffold("workshop.depth", workshop);
    CHECK(refused.status == 2);
    CHECK(files_in(root.path()) == before);
    for (const auto& [name, text] : sound) root.write(name, text);
    return refused.err;
  };
  CHECK_THAT(refusal_after("sed -i '/above this line: k@/d' checks.cpp"),
             Contains("checks.cpp' lacks the line") && Contains("in its list of declarations"));
  CHECK_THAT(refusal_after("sed -i '/above this line: outcome/d' checks.cpp"), Contains("where checks are called"));
  CHECK_THAT(refusal_after("sed -i 's/properties/properties,/' settings.schema.json"),
             Contains("settings.schema.json'"));
  CHECK_THAT(refusal_after("sed -i 's/face_area_limit/depth_limit/' settings.schema.json"),
             Contains("has the setting \"depth_limit_m2\" already"));
  CHECK_THAT(refusal_after("rm checks.cpp"), Contains("cannot read") && Contains("checks.cpp'"));
  CHECK(scaffold("workshop.depth", workshop).status == 0);
}

TEST_CASE("A folder that cannot be written leaves nothing half written") {
  const testing::TemporaryFolder root;
  const CommandResult refused = scaffold("workshop.face_area", root.write("file", "no folder") / "new");
  CHECK(refused.status != 0);
  CHECK_THAT(refused.err, Contains((root.path() / "file").string()));

  const fs::path workshop = root.path() / "workshop";
  REQUIRE(scaffold("workshop.face_area", workshop).status == 0);
  // Something stands where the last of the changed files is prepared.
  root.write("workshop/tests/depth_cases.cpp.new/in_the_way", "");
  const auto before = files_in(root.path());
  const CommandResult failed = scaffold("workshop.depth", workshop);
  CHECK(failed.status == 3);
  CHECK_THAT(failed.err, Contains("depth_cases.cpp.new") && Contains("; nothing was written"));
  CHECK(files_in(root.path()) == before);
}
