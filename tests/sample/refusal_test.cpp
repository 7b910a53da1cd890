// What a build does when something is wrong.
#include <sys/types.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>

#include "core/api/testing/temporary_folder.h"
#include "tests/sample/sample_build.h"

using namespace panel_dossier;
namespace fs = std::filesystem;

namespace {

/// An output folder that holds an earlier build's log, to see that nothing touches it.
struct EarlierBuild {
  testing::TemporaryFolder folder;
  fs::path out = folder.path() / "out";

  EarlierBuild() {
    fs::create_directory(out);
    std::ofstream(out / "build.log") << "earlier\n";
  }

  bool untouched() const {
    return text_of(out / "build.log") == "earlier\n" &&
           std::distance(fs::directory_iterator(out), fs::directory_iterator()) == 1;
  }
};

CommandResult panel_dossier_with(const std::string& arguments) {
  return run_command(quoted(PANEL_DOSSIER_PROGRAM) + " " + arguments);
}

}  // namespace

TEST_CASE("Wrong usage exits with 64 and teaches") {
  const std::string arguments =
      GENERATE("", "fly", "build", "build x.ifcxml", "build x.ifcxml --out y --build-time noon",
               "build x.ifcxml --out y --build-time 2026-02-30T02:00:00Z",
               "build x.ifcxml --out y --build-time 2026-06-01T24:00:00Z",
               "build x.ifcxml --out y --build-time 2026-06-01T02:60:00Z",
               "build x.ifcxml --out y --build-time 2026-06-01T02:00:60Z",
               "build x.ifcxml --out y --build-time 2026-06-01T02:00:00Zulu", "build x.ifcxml --out y --share 3/2",
               "build x.ifcxml --out y --share 0/2", "build x.ifcxml --out y --password-env KEY", "trace", "verify",
               "build x.ifcxml --out y --sign-key ''", "build x.ifcxml --out y --time-stamp-server ''",
               "extend x.pdf --out y.pdf", "extend x.pdf --out y.pdf --time-stamp-server ''");
  INFO(arguments);
  const CommandResult result = panel_dossier_with(arguments);
  CHECK(result.status == 64);
  CHECK_THAT(result.err, Catch::Matchers::Contains("--help"));
}

TEST_CASE("Times and shares are taken to the first and the last that there are") {
  const testing::TemporaryFolder folder;
  const std::string arguments = GENERATE("--build-time 2026-06-01T00:00:00Z", "--build-time 2026-06-01T23:59:59Z",
                                         "--share 1/2 --store all.store", "--share 2/2 --store all.store");
  INFO(arguments);
  const CommandResult result = run_command("cd " + quoted(folder.path()) + " && " + quoted(PANEL_DOSSIER_PROGRAM) +
                                           " build none.ifcxml --out out " + arguments);
  CHECK(result.status != 64);
  CHECK_THAT(result.err, Catch::Matchers::Contains("cannot read 'none.ifcxml'"));
}

TEST_CASE("Help and version exit with 0") {
  CHECK(panel_dossier_with("--help").status == 0);
  CHECK(panel_dossier_with("--version").status == 0);
  CHECK(panel_dossier_with("build --help").status == 0);
}

TEST_CASE("A name with a line break and control characters forges nothing on the console") {
  const testing::TemporaryFolder folder;
  const std::string name = "x\nerror: forged\x1b[2J\xE2\x80\xAE";
  const std::string build = "build --out '" + (folder.path() / "out").string() + "' ";
  for (const std::string& command : {std::string("check "), std::string("verify "), build}) {
    INFO(command);
    const CommandResult result = panel_dossier_with(command + quoted(folder.path() / name));
    CHECK(result.status != 0);
    CHECK_THAT(result.err + result.out, Catch::Matchers::Contains("x<U+000A>error: forged<U+001B>[2J<U+202E>"));
    CHECK_THAT(result.err + result.out, !Catch::Matchers::Contains("\x1b"));
    CHECK_THAT(result.err + result.out, !Catch::Matchers::Contains("\nerror: forged"));
  }
}

TEST_CASE("A broken table of the practice's guidance refuses the input, with its file and line") {
  const SmallProject project(1);
  nlohmann::json settings = nlohmann::json::parse(text_of(project.folder() / "settings.json"));
  EarlierBuild earlier;
  CommandResult result;
  for (const char* folder : {"..", "settings.json", "ours"}) {
    settings["guidance"]["folder"] = folder;
    std::ofstream(project.folder() / "settings.json") << settings.dump();
    result = run_command(build_command(project.export_file(), earlier.out));
    CHECK(result.status == 2);
    CHECK_THAT(result.err, Catch::Matchers::Contains(std::string("guidance.folder '") + folder +
                                                     "' is no folder beside the settings"));
  }
  fs::create_directory(project.folder() / "ours");
  std::ofstream(project.folder() / "ours" / "risks.csv") << "id,topic,of,when,text,who,interval_years,source\n"
                                                            "our.risk,safety.risk,panel,panel.age>3,Old.,,,ours\n";
  result = run_command(build_command(project.export_file(), earlier.out));
  CHECK(result.status == 2);
  CHECK_THAT(result.err, Catch::Matchers::Contains("risks.csv:2: error: 'panel.age' is no fact"));
  CHECK(earlier.untouched());
}

TEST_CASE("An export that does not exist is refused and named") {
  EarlierBuild earlier;
  const CommandResult result = run_command(build_command("/nonexistent.ifcxml", earlier.out));
  CHECK(result.status == 2);
  CHECK_THAT(result.err, Catch::Matchers::Contains("cannot read '/nonexistent.ifcxml': No such file or directory"));
  CHECK(earlier.untouched());
}

TEST_CASE("Plugins that are refused end their list with 3, and properties and ids are lists of their own") {
  const testing::TemporaryFolder folder;
  std::ofstream(folder.path() / "broken.so") << "no shared object";
  const CommandResult list = panel_dossier_with("plugins --plugins " + quoted(folder.path()));
  CHECK(list.status == 3);
  CHECK_THAT(list.err, Catch::Matchers::Contains("broken.so"));
  const CommandResult none =
      panel_dossier_with("plugins --without-own-plugins --plugins " + quoted(folder.path() / "nowhere"));
  CHECK(none.status == 3);
  CHECK(panel_dossier_with("plugins").status == 0);
  // One without settings is sound, one with broken ones is not.
  const fs::path own = folder.path() / "own";
  fs::copy(PANEL_DOSSIER_PLUGIN_DIR, own, fs::copy_options::recursive);
  fs::remove(own / "fire" / "settings.schema.json");
  std::ofstream(own / "carbon" / "settings.schema.json", std::ios::trunc) << "{";
  const CommandResult without = panel_dossier_with("plugins --without-own-plugins --plugins " + quoted(own));
  CHECK(without.status == 3);
  CHECK_THAT(without.err,
             Catch::Matchers::Contains("carbon.so' has a broken") && !Catch::Matchers::Contains("fire.so"));
  CHECK_THAT(without.out, Catch::Matchers::Contains("fire") && !Catch::Matchers::Contains("carbon.whole_life"));
  CHECK_THAT(panel_dossier_with("plugins --properties").out,
             Catch::Matchers::StartsWith("# The property sets that the program and its plugins read"));
  CHECK_THAT(panel_dossier_with("plugins --ids").out,
             Catch::Matchers::Contains("<ids xmlns=\"http://standards.buildingsmart.org/IDS\""));
}

TEST_CASE("A truncated export is refused and the earlier build stays") {
  EarlierBuild earlier;
  const std::string whole = text_of(sample_export());
  const fs::path cut = earlier.folder.path() / "cut.ifcxml";
  std::ofstream(cut, std::ios::binary) << whole.substr(0, whole.size() / 2);
  const CommandResult result = run_command(build_command(cut, earlier.out));
  CHECK(result.status == 2);
  CHECK_THAT(result.err, Catch::Matchers::Contains("cut.ifcxml:") && Catch::Matchers::Contains("nothing was written"));
  // There is but one error, and it was told.
  CHECK_THAT(result.out + result.err, !Catch::Matchers::Contains("more in the log"));
  CHECK(run_command(build_command(cut, earlier.out) + " --dry-run").status == 2);
  CHECK(earlier.untouched());
}

TEST_CASE("Settings that are no JSON are refused with their line") {
  EarlierBuild earlier;
  const fs::path settings = earlier.folder.path() / "bad.json";
  std::ofstream(settings) << "{\n  \"project\": ,\n}\n";
  const CommandResult result =
      run_command(build_command(sample_export(), earlier.out) + " --settings " + quoted(settings));
  CHECK(result.status == 2);
  CHECK_THAT(result.err, Catch::Matchers::Contains("bad.json:2:"));
  CHECK(earlier.untouched());
}

TEST_CASE("check refuses what build refuses, and tells of what is missing only where the input can be built") {
  const SmallProject project(1);
  const std::string whole = text_of(project.export_file());
  const fs::path cut = project.folder() / "cut.ifcxml";
  std::ofstream(cut) << whole.substr(0, whole.size() / 2);
  const fs::path settings = project.folder() / "bad.json";
  std::ofstream(settings) << "{\n  \"project\": ,\n}\n";
  for (const std::string& arguments :
       {quoted(cut), quoted(project.export_file()) + " --settings " + quoted(settings)}) {
    const CommandResult result = panel_dossier_with("check " + arguments);
    INFO(arguments << "\n" << result.err);
    CHECK(result.status == 2);
    CHECK_THAT(result.out, Catch::Matchers::Contains("the input is refused") &&
                               !Catch::Matchers::Contains("what is missing, where it can come from"));
  }
  const CommandResult sound = panel_dossier_with("check " + quoted(project.export_file()));
  CHECK(sound.status == 0);
  CHECK_THAT(sound.out, Catch::Matchers::Contains("the input can be built") &&
                            Catch::Matchers::Contains("what is missing, where it can come from"));
}

TEST_CASE("An output folder with somebody's files is not replaced") {
  EarlierBuild earlier;
  std::ofstream(earlier.out / "letter.txt") << "dear client\n";
  const CommandResult result = run_command(build_command(sample_export(), earlier.out));
  CHECK(result.status == 3);
  CHECK_THAT(result.err, Catch::Matchers::Contains("holds 'letter.txt', which no build wrote"));
  CHECK(text_of(earlier.out / "letter.txt") == "dear client\n");
}

TEST_CASE("Results are written back neither into the output folder nor over a file that is no export") {
  EarlierBuild earlier;
  const std::string build = build_command(sample_export(), earlier.out) + " --write-back ";
  const CommandResult inside = run_command(build + quoted(earlier.out / "back.ifcxml"));
  CHECK(inside.status == 64);
  CHECK_THAT(inside.err, Catch::Matchers::Contains("lies in the output folder"));
  const fs::path notes = earlier.folder.path() / "notes.json";
  std::ofstream(notes) << "{ /* Panel_Results */ }";
  const CommandResult over = run_command(build + quoted(notes));
  CHECK(over.status == 64);
  CHECK_THAT(over.err, Catch::Matchers::Contains("notes.json' exists and holds no results"));
  CHECK(text_of(notes) == "{ /* Panel_Results */ }");
  CHECK(earlier.untouched());
}

TEST_CASE("A link in the place of the hidden folder is not followed") {
  EarlierBuild earlier;
  const fs::path victim = earlier.folder.path() / "victim";
  fs::create_directory(victim);
  std::ofstream(victim / "build.log") << "precious\n";
  fs::create_directory_symlink(victim, earlier.folder.path() / ".out.building");
  const CommandResult result = run_command(build_command(sample_export(), earlier.out));
  CHECK(result.status == 3);
  CHECK(text_of(victim / "build.log") == "precious\n");
  CHECK(earlier.untouched());
}

TEST_CASE("An export through a pipe is refused instead of waited for") {
  const testing::TemporaryFolder folder;
  const CommandResult result = run_command("mkfifo " + quoted(folder.path() / "pipe") + " && timeout 20 " +
                                           build_command(folder.path() / "pipe", folder.path() / "out"));
  CHECK(result.status == 2);
  CHECK_THAT(result.err, Catch::Matchers::Contains("is not a file but a folder, pipe or device"));
}

TEST_CASE("The log names what fails") {
  CHECK_THAT(text_of(sample_out() / "build.log"),
             Catch::Matchers::Contains("panel 'E1-03': quantities.as_built_size: fail: "));
}

TEST_CASE("A missing font stops the build with the package to install and keeps the earlier one") {
  const SmallProject project(1);
  EarlierBuild earlier;
  const CommandResult result = run_command(build_command(project.export_file(), earlier.out) + " --fonts /nonexistent");
  CHECK(result.status == 3);
  CHECK_THAT(result.err, Catch::Matchers::Contains("fonts-lato"));
  CHECK(earlier.untouched());
}

TEST_CASE("A key that cannot be read stops the build and keeps the earlier one") {
  const SmallProject project(1);
  EarlierBuild earlier;
  const CommandResult result =
      run_command(build_command(project.export_file(), earlier.out) + " --sign-key /nonexistent.p12");
  CHECK(result.status == 3);
  CHECK_THAT(result.err, Catch::Matchers::Contains("/nonexistent.p12"));
  CHECK(earlier.untouched());
}

TEST_CASE("A refused plugin leaves a build marked incomplete") {
  const SmallProject project(1);
  const testing::TemporaryFolder folder;
  const fs::path plugins = folder.path() / "plugins";
  fs::copy(PANEL_DOSSIER_PLUGIN_DIR, plugins, fs::copy_options::recursive);
  std::ofstream(plugins / "carbon.so", std::ios::trunc) << "damaged\n";
  const fs::path out = folder.path() / "out";
  const CommandResult result =
      run_command(build_command(project.export_file(), out) + " --without-own-plugins --plugins " + quoted(plugins));
  CHECK(result.status == 3);
  CHECK_THAT(result.err, Catch::Matchers::Contains("carbon.so"));
  CHECK_THAT(text_of(folder.path() / "out.incomplete" / "results.json"),
             Catch::Matchers::Contains("\"incomplete\": true"));
  CHECK_THAT(run_command("pdftotext -l 1 " + quoted(folder.path() / "out.incomplete" / "dossier.pdf") + " -").out,
             Catch::Matchers::Contains("ncomplete"));
}

TEST_CASE("A discipline that the settings expect and that is absent makes the build incomplete") {
  const SmallProject project(1);
  const testing::TemporaryFolder folder;
  const fs::path plugins = folder.path() / "plugins";
  fs::copy(PANEL_DOSSIER_PLUGIN_DIR, plugins, fs::copy_options::recursive);
  fs::remove(plugins / "structural.so");
  const fs::path out = folder.path() / "out";
  const CommandResult result =
      run_command(build_command(project.export_file(), out) + " --without-own-plugins --plugins " + quoted(plugins));
  CHECK(result.status == 3);
  CHECK_THAT(result.err, Catch::Matchers::Contains("the discipline 'structural' is expected"));
  CHECK_THAT(run_command("pdftotext -l 1 " + quoted(folder.path() / "out.incomplete" / "dossier.pdf") + " -").out,
             Catch::Matchers::Contains("structural"));
}

TEST_CASE("A build without a failure but with open points ends with 4, and names who can close them") {
  const SmallProject project(1);
  const testing::TemporaryFolder folder;
  const fs::path plugins = folder.path() / "plugins";
  fs::create_directory(plugins);
  fs::copy(fs::path(PANEL_DOSSIER_PLUGIN_DIR) / "fire.so", plugins / "fire.so");
  fs::copy(fs::path(PANEL_DOSSIER_PLUGIN_DIR) / "fire", plugins / "fire", fs::copy_options::recursive);
  const fs::path settings = folder.path() / "settings.json";
  std::ofstream(settings) << R"({ "project": { "jurisdiction": "England", "assessment_date": "2026-06-01" } })";
  const fs::path out = folder.path() / "out";
  const CommandResult result =
      run_command(build_command(project.export_file(), out) + " --without-own-plugins --plugins " + quoted(plugins) +
                  " --settings " + quoted(settings));
  INFO(result.err);
  CHECK(result.status == 4);
  CHECK_THAT(result.err, Catch::Matchers::Contains("causes: 0 fail, "));
  CHECK_THAT(text_of(out / "open-points.csv"),
             Catch::Matchers::Contains("evidence needed,fire.") && Catch::Matchers::Contains("laboratory"));
}

TEST_CASE("Two builds of one folder at once: the second is told to wait") {
  const SmallProject project(1);
  const testing::TemporaryFolder folder;
  const std::string build = build_command(project.export_file(), folder.path() / "out");
  const CommandResult result = run_command(build + " & sleep 0.3; " + build + "; second=$?; wait; exit $second");
  // On a fast machine the first may be done before the second begins; then both succeed.
  if (result.status != 1) {
    CHECK(result.status == 3);
    CHECK_THAT(result.err, Catch::Matchers::Contains("another build is writing to"));
  }
  CHECK(fs::exists(folder.path() / "out" / "dossier.pdf"));
}

TEST_CASE("trace names the nearest marks when a panel is unknown") {
  const CommandResult result = panel_dossier_with("trace " + quoted(sample_out()) + " nonexistent-panel");
  CHECK(result.status == 2);
  CHECK_THAT(result.err, Catch::Matchers::Contains("nonexistent-panel"));
}
