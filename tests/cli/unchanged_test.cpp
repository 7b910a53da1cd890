#include "core/cli/build/store/unchanged.h"

#include <catch2/catch.hpp>
#include <chrono>

#include "core/api/testing/temporary_folder.h"

using namespace panel_dossier;
namespace fs = std::filesystem;

namespace {

/// A project, a program and an output, and a build that was remembered.
struct RememberedProject {
  testing::TemporaryFolder folder;
  fs::path out = folder.path() / "out";
  BuildOrigins origins;
  std::set<std::string> watched{folder.path().string()};
  RememberedBuild build;
  ResultStore store{folder.path() / "out.store"};

  RememberedProject() {
    origins.export_file = folder.write("hall.ifcxml", "export");
    origins.program = {folder.write("program/bin", "program")};
    origins.options = "--labels";
    origins.out = out;
    folder.write("out/dossier.pdf", "pages");
    folder.write("evidence/report.pdf", "report");
    build.time_utc = "2026-06-02T02:00:00Z";
    build.status = 4;
    build.summary.title = "Example Hall";
    build.summary.lines = {{{"state", "OPEN"}, {"worse", "3"}, {"causes", "some"}, {"issue", "none"}, {"dossier", ""}}};
    build.summary.sections = {{"Since the build of yesterday", {"one"}}, {"What fails or is open", {"two"}}};
    remember(std::chrono::hours(1));
  }

  /// As if the build had begun so long from now.
  void remember(std::chrono::system_clock::duration from_now) {
    remember_build(store, origins, watched, build, std::chrono::system_clock::now() + from_now);
  }
  bool stands(const std::string& time_utc = "2026-06-03T02:00:00Z") {
    return unchanged_build(store, origins, time_utc).has_value();
  }
};

}  // namespace

TEST_CASE("A build of which nothing has changed is remembered with its status and summary") {
  RememberedProject project;
  const auto known = unchanged_build(project.store, project.origins, "2026-06-02T02:00:00Z");
  REQUIRE(known);
  CHECK(known->status == 4);
  CHECK(known->time_utc == "2026-06-02T02:00:00Z");
  const MorningSummary morning = summary_of_unchanged(*known);
  CHECK(morning.title == "Example Hall");
  CHECK(morning.lines[0].second == "OPEN");
  CHECK(morning.lines[1].second == "none");
  CHECK(morning.lines[2].second == "nothing has changed since the build of 2026-06-02T02:00:00Z, which stands");
  REQUIRE(morning.sections.size() == 1);
  CHECK(morning.sections[0].heading == "What fails or is open");
  CHECK(morning.sections[0].lines == std::vector<std::string>{"two"});
}

TEST_CASE("Whatever changes of inputs, program, options, outputs or time has the project built again") {
  RememberedProject project;
  const auto changed = [&project](const char* file, const char* before) {
    project.folder.write(file, "changed");
    const bool noticed = !project.stands();
    project.folder.write(file, before);
    return noticed && project.stands();
  };
  CHECK(changed("hall.ifcxml", "export"));
  CHECK(changed("program/bin", "program"));
  CHECK(changed("evidence/report.pdf", "report"));
  CHECK(changed("out/dossier.pdf", "pages"));
  CHECK_FALSE(project.stands("2026-06-01T02:00:00Z"));
  project.folder.write("evidence/more.pdf", "more");
  CHECK_FALSE(project.stands());
  fs::remove(project.folder.path() / "evidence/more.pdf");
  CHECK(project.stands());
  project.folder.write("out/more.csv", "more");
  CHECK_FALSE(project.stands());
  fs::remove(project.out / "more.csv");
  project.origins.options = "--labels --seal";
  CHECK_FALSE(project.stands());
}

TEST_CASE("What a build keeps beside its output, and what it made elsewhere, changes nothing") {
  RememberedProject project;
  project.origins.made = {project.folder.path() / "evidence/back.ifcxml"};
  for (const char* file : {"out.logs/night.log", "out.history.jsonl", ".out.lock", "evidence/back.ifcxml"}) {
    project.folder.write(file, "of the build");
    INFO(file);
    CHECK(project.stands());
  }
  for (const char* file : {"outside.csv", "sub/out.csv"}) {
    INFO(file);
    project.folder.write(file, "an input");
    CHECK_FALSE(project.stands());
    fs::remove(project.folder.path() / file);
  }
}

TEST_CASE("A build during which an input was written is forgotten") {
  RememberedProject project;
  REQUIRE(project.stands());
  project.remember(-std::chrono::hours(1));
  CHECK_FALSE(project.stands());
}
