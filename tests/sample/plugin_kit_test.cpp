// What DEVELOPERS.md tells newcomers to type, typed: install program and kit, make, test and try plugins, build with
// them.
#include <algorithm>
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>
#include <string>

#include "tests/sample/sample_build.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

/// What stands between the two texts, each of which must be there.
std::string between(const std::string& text, const std::string& start, const std::string& end) {
  const std::size_t from = text.find(start);
  const std::size_t to = text.find(end, from);
  if (from == std::string::npos || to == std::string::npos) throw std::runtime_error("no '" + start + "' … '" + end);
  return text.substr(from + start.size(), to - from - start.size());
}

std::string pages_in(const fs::path& readme) {
  return between(text_of(readme), "<!-- checks -->\n", "<!-- /checks -->");
}

/// The commands of DEVELOPERS.md, with the build that this test is of in place of the release build.
std::string walk() {
  std::string commands =
      between(text_of(fs::path(PANEL_DOSSIER_SOURCE_DIR) / "DEVELOPERS.md"), "<!-- walk -->\n```sh\n", "```\n");
  const std::string build = "build/release";
  const std::size_t at = commands.find(build);
  if (at == std::string::npos) throw std::runtime_error("the commands install no " + build);
  return commands.replace(at, build.size(), "'" PANEL_DOSSIER_BINARY_DIR "'");
}

/// Plugins are compiled quickly rather than well, and with the allocator of the program that loads them.
std::string environment_of(const fs::path& prefix, const fs::path& work) {
#ifdef __SANITIZE_ADDRESS__
  const std::string compiled = "-O0 -fsanitize=address";
  const std::string linked = "-fsanitize=address,undefined";  // as the kit's library asks for
#else
  const std::string compiled = "-O0";
  const std::string linked;
#endif
  return "export CMAKE_BUILD_PARALLEL_LEVEL=2 CXXFLAGS='" + compiled + "' LDFLAGS='" + linked +
         "' PREFIX=" + quoted(prefix) + " WORK=" + quoted(work) + "; ";
}

std::set<std::string> checks_of_every_panel(const json& results) {
  std::set<std::string> all;
  bool is_first = true;
  for (const json& panel : results.at("panels")) {
    std::set<std::string> here;
    for (const json& finding : panel.at("findings")) {
      const std::string check = finding.at("check");
      if (is_first || all.contains(check)) here.insert(check);
    }
    all = here;
    is_first = false;
  }
  return all;
}

std::size_t lines_in(const std::string& text) {
  return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

}  // namespace

TEST_CASE("The commands for newcomers lead from an empty folder to chapters in the dossier", "[plain]") {
  const testing::TemporaryFolder folder;
  const fs::path prefix = folder.path() / "prefix";
  const fs::path work = folder.path() / "work";
  const std::string environment = environment_of(prefix, work);
  const CommandResult walked = run_command("cd " + quoted(PANEL_DOSSIER_SOURCE_DIR) + "; " + environment + "sh -eu " +
                                           quoted(folder.write("walk.sh", walk())));
  INFO(walked.out);
  INFO(walked.err);
  REQUIRE(walked.status == 0);

  // Findings, tables and chapters of both plugins.
  const json results = json::parse(text_of(work / "out/results.json"));
  const std::size_t panels = results.at("panels").size();
  REQUIRE(panels >= 60);
  const std::set<std::string> checks = checks_of_every_panel(results);
  CHECK(checks.contains("workshop.face_area"));
  CHECK(checks.contains("workshop.panel_face"));
  CHECK(checks.contains("sound.reduction_index"));
  CHECK(checks.contains("fire.reaction_to_fire"));
  const std::string areas = text_of(work / "out/workshop.csv");
  CHECK(areas.starts_with("mark,type,face_area_m2\r\n"));
  CHECK(lines_in(areas) == panels + 1);
  CHECK(lines_in(text_of(work / "out/sound.csv")) == panels + 1);
  const std::string pages = run_command("pdftotext -layout " + quoted(work / "out/dossier.pdf") + " -").out;
  CHECK_THAT(pages, Contains("Made by the scaffold as a toy: rely on nothing of it."));
  CHECK_THAT(pages, Contains("Panel face"));
  CHECK_THAT(pages, Contains("An estimate by the mass law supports no claim"));

  // What the plugins say of themselves is what their READMEs say.
  const fs::path sound_plugins = work / "sound/plugins";
  const fs::path workshop_plugins = work / "workshop/build/plugins";
  const std::string program = quoted(prefix / "bin/panel-dossier");
  const auto pages_of = [&](const std::string& plugin, const fs::path& plugins) {
    return run_command(program + " plugins --pages " + plugin + " --plugins " + quoted(plugins)).out;
  };
  CHECK(pages_in(work / "workshop/README.md") == pages_of("workshop", workshop_plugins));
  CHECK(pages_in(sample_folder() / "plugin_example/README.md") == pages_of("sound", sound_plugins));

  // The example alone.
  const std::string alone = " --without-own-plugins --plugins " + quoted(sound_plugins);
  const CommandResult listed = run_command(program + " plugins" + alone);
  CHECK(listed.status == 0);
  CHECK(listed.out.starts_with("sound 1.0.0"));
  CHECK_THAT(listed.out, !Contains("fire"));
  const fs::path settings = folder.write("settings.json", "{}");
  const CommandResult built = run_command(program + " build " + quoted(sample_export()) + alone + " --settings " +
                                          quoted(settings) + " --out " + quoted(folder.path() / "alone"));
  INFO(built.err);
  CHECK(built.status == 0);
  CHECK(checks_of_every_panel(json::parse(text_of(folder.path() / "alone/results.json"))) ==
        std::set<std::string>{"sound.reduction_index"});

  // A formula that does not give its number is found by the plugin's own tests and by a trial.
  const std::string toy = quoted(work / "workshop/face_area.cpp");
  REQUIRE(run_command("sed -i 's/A = b · h/A = b + h/' " + toy).status == 0);
  const std::string build = quoted(work / "workshop/build");
  REQUIRE(run_command(environment + "cmake --build " + build).status == 0);
  const CommandResult tested = run_command("ctest --output-on-failure --test-dir " + build);
  CHECK(tested.status != 0);
  CHECK_THAT(tested.out, Contains("A = b + h"));
  const std::string trial = program + " plugins --try " + quoted(workshop_plugins / "workshop.so");
  const CommandResult tried = run_command(trial + " " + quoted(work / "project/health-centre.ifcxml"));
  CHECK(tried.status == 1);
  CHECK_THAT(tried.out, Contains("fault: ") && Contains("A = b + h") && Contains("\n1 fault\n"));
  const CommandResult refused = run_command(trial + " " + quoted(settings));
  CHECK(refused.status == 2);
  CHECK_THAT(refused.err, Contains("the input is refused; nothing was tried"));
}

TEST_CASE("A prefix that cannot be written is named by the installation", "[plain]") {
  const testing::TemporaryFolder folder;
  const fs::path prefix = folder.write("file", "not a folder") / "prefix";
  const CommandResult installed =
      run_command("cmake --install '" PANEL_DOSSIER_BINARY_DIR "' --prefix " + quoted(prefix));
  CHECK(installed.status != 0);
  CHECK_THAT(installed.err, Contains(prefix.string()));
}

TEST_CASE("A trial refuses a plugin of another kit and what is no plugin, by name", "[plain]") {
  const fs::path other = fs::path(PANEL_DOSSIER_BINARY_DIR) / "tests/plugins/other_kit.so";
  REQUIRE(fs::exists(other));
  const auto trial_of = [](const fs::path& plugin) {
    return run_command(quoted(PANEL_DOSSIER_PROGRAM) + " plugins --try " + quoted(plugin) + " " +
                       quoted(sample_export()));
  };
  const CommandResult refused = trial_of(other);
  CHECK(refused.status == 3);
  CHECK(refused.err.starts_with("refused: plugin '" + other.string() + "' was built with kit 0123456789ab"));
  const CommandResult absent = trial_of("absent.so");
  CHECK(absent.status == 3);
  CHECK_THAT(absent.err, Contains("absent.so'"));
}

TEST_CASE("A trial wants a project, and a project is for a trial", "[plain]") {
  const std::string plugins = quoted(PANEL_DOSSIER_PROGRAM) + " plugins ";
  CHECK(run_command(plugins + "--try fire.so").status == 64);
  CHECK(run_command(plugins + quoted(sample_export())).status == 64);
}

TEST_CASE("A trial of what reads neither property nor setting says that nothing could be taken away", "[plain]") {
  const std::string trial = quoted(PANEL_DOSSIER_PROGRAM) + " plugins --try ";
  const std::string hint = "nothing passes by a property or setting, so none could be taken away";
  const fs::path built = PANEL_DOSSIER_BINARY_DIR;
  const CommandResult sound =
      run_command(trial + quoted(built / "tests/plugins/sound.so") + " " + quoted(sample_export()));
  CHECK(sound.status == 0);
  CHECK_THAT(sound.out,
             Contains("0 findings looked at without an input") && Contains(hint) && Contains("\n0 faults\n"));
  const SmallProject project;
  const CommandResult reading =
      run_command(trial + quoted(built / "plugins/quantities.so") + " " + quoted(project.export_file()));
  CHECK_THAT(reading.out, Contains(" findings looked at without an input") && !Contains("\n0 findings looked at") &&
                              !Contains(hint));
}

TEST_CASE("The README of every plugin holds the pages of its checks", "[plain]") {
  std::size_t plugins = 0;
  for (const auto& entry : fs::directory_iterator(fs::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins")) {
    if (!fs::exists(entry.path() / "entry.cpp")) continue;
    ++plugins;
    const std::string name = entry.path().filename().string();
    INFO(name << ": .ci/pages writes them");
    const CommandResult pages = run_command(quoted(PANEL_DOSSIER_PROGRAM) + " plugins --pages " + name);
    CHECK(pages.status == 0);
    CHECK(pages_in(entry.path() / "README.md") == pages.out);
  }
  CHECK(plugins >= 5);
}

TEST_CASE("The page of tables is what the plugins declare", "[plain]") {
  CHECK(text_of(fs::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas/outputs.md") ==
        run_command(quoted(PANEL_DOSSIER_PROGRAM) + " plugins --outputs").out);
}
