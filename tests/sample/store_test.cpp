// Builds one after another: what they need not do again.
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <string>

#include "core/api/testing/temporary_folder.h"
#include "tests/sample/sample_build.h"

using namespace panel_dossier;
namespace fs = std::filesystem;

namespace {

/// As `build_command`, with a store and, where it is empty, the machine's time.
std::string storing_command(const fs::path& export_file, const fs::path& out, const std::string& time = {}) {
  return quoted(PANEL_DOSSIER_PROGRAM) + " build " + quoted(export_file) + " --out " + quoted(out) +
         (time.empty() ? "" : " --build-time " + time);
}

/// All files that a build with a fixed time gives with the same bytes.
std::map<std::string, std::string> same_files(const fs::path& out) {
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::directory_iterator(out)) {
    // The demonstration key, and so certificate and signature, is another in each build.
    const fs::path kind = entry.path().extension();
    if (kind != ".pdf" && kind != ".pem") files[entry.path().filename().string()] = text_of(entry.path());
  }
  return files;
}

}  // namespace

TEST_CASE("A night in which nothing has changed leaves what stands, and a file more makes it build again", "[plain]") {
  const SmallProject project(2);
  const fs::path out = project.folder() / "out";
  const auto build = [&](const std::string& more = {}) {
    return run_command(storing_command(project.export_file(), out) + more);
  };
  const CommandResult first = build();
  CHECK_THAT(first.err, Catch::Contains("10 results of panels: 0 from the store, 10 computed"));
  const std::string dossier = text_of(out / "dossier.pdf");

  const CommandResult second = build();
  CHECK(second.status == first.status);
  CHECK_THAT(second.err, Catch::Contains("nothing that the build of "));
  CHECK_THAT(second.out,
             Catch::Contains("causes: nothing has changed since the build of ") && Catch::Contains("worse: none\n"));
  CHECK(text_of(out / "dossier.pdf") == dossier);

  fs::create_directory(project.folder() / "records");
  std::ofstream(project.folder() / "records" / "readme.txt") << "new";
  const CommandResult third = build(" --explain");
  CHECK_THAT(third.err, Catch::Contains("10 from the store, 0 computed") && Catch::Contains("nothing was computed"));
  CHECK(text_of(out / "dossier.pdf") != dossier);

  // Somebody's hand in the output is not left to stand.
  std::ofstream(out / "open-points.csv", std::ios::app) << "by hand\n";
  CHECK_THAT(build().err, Catch::Contains("10 from the store, 0 computed"));

  auto settings = nlohmann::json::parse(text_of(project.folder() / "settings.json"));
  settings["structural"]["wind"]["basic_velocity_m_per_s"] = 24.0;
  std::ofstream(project.folder() / "settings.json") << settings.dump(2);
  CHECK_THAT(build(" --explain").err,
             Catch::Contains("structural: computed for all panels: setting structural.wind.basic_velocity_m_per_s: "
                             "22.5 -> 24.0"));
}

TEST_CASE("Shares of a project, assembled, give the bytes of one run, and so does a run in this process") {
  const SmallProject project(5);
  const fs::path& folder = project.folder();
  const std::string time = PANEL_DOSSIER_SAMPLE_TIME;
  for (const char* share : {"1/2", "2/2"}) {
    const fs::path bundle = folder / (std::string(1, share[0]) + ".store");
    const CommandResult result = run_command(storing_command(project.export_file(), folder / "shares", time) +
                                             " --share " + share + " --store " + quoted(bundle));
    CHECK(result.status == 0);
    CHECK_THAT(result.out, Catch::Contains("0 from the store"));
  }
  CHECK_FALSE(fs::exists(folder / "shares"));
  const CommandResult assembled = run_command(
      quoted(PANEL_DOSSIER_PROGRAM) + " assemble " + quoted(project.export_file()) + " " + quoted(folder / "1.store") +
      " " + quoted(folder / "2.store") + " --out " + quoted(folder / "shares") + " --build-time " + time);
  CHECK_THAT(assembled.err, Catch::Contains("25 results of panels: 25 from the store, 0 computed"));
  run_command(build_command(project.export_file(), folder / "one") + " --in-process --threads 1");
  CHECK(same_files(folder / "shares") == same_files(folder / "one"));

  const CommandResult wrong = run_command(quoted(PANEL_DOSSIER_PROGRAM) + " assemble " + quoted(project.export_file()) +
                                          " " + quoted(folder / "settings.json") + " --out " + quoted(folder / "none"));
  CHECK(wrong.status == 3);
  CHECK_THAT(wrong.err, Catch::Contains("settings.json' is no store of results"));
}

TEST_CASE("A plugin that the settings do not allow is not run, and the build is incomplete") {
  const SmallProject project(1);
  auto settings = nlohmann::json::parse(text_of(project.folder() / "settings.json"));
  settings["plugins"]["allowed"] = {std::string(64, 'a')};
  std::ofstream(project.folder() / "settings.json") << settings.dump(2);
  const CommandResult result = run_command(build_command(project.export_file(), project.folder() / "out"));
  CHECK(result.status == 3);
  CHECK_THAT(result.err, Catch::Contains("is not run: its SHA-256 ") &&
                             Catch::Contains("is not one that the setting 'plugins.allowed' lists"));
}
