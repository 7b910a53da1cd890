#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <filesystem>
#include <new>
#include <string>
#include <thread>
#include <vector>

#include "core/api/testing/temporary_folder.h"
#include "core/pipeline/byte_form/finding_fields.h"
#include "core/pipeline/run.h"
#include "core/pipeline/worker/child_process.h"
#include "core/pipeline/worker/remote_plugin.h"

using namespace panel_dossier;

namespace {

std::filesystem::path test_plugin(const std::string& name) {
  return std::filesystem::path(PANEL_DOSSIER_TEST_PLUGIN_DIR) / (name + ".so");
}

/// Little memory. Time is tight only where a plugin hangs: any other may be slow on a machine that is busy.
WorkerLimits tight_limits() {
  WorkerLimits limits;
  limits.memory_bytes = std::size_t{256} << 20;
  return limits;
}

/// Panels whose names say what the plugin is to do; an empty one is for a sound one.
Project project_with(const std::vector<std::string>& panel_names, const std::string& name = {}) {
  Project project;
  project.name = name;
  for (std::size_t i = 0; i < panel_names.size(); ++i) {
    Panel panel;
    panel.mark = "P" + std::to_string(i);
    panel.global_id = "id-" + panel.mark;
    panel.name = panel_names[i];
    panel.width_m.value = 3.0;
    panel.height_m.value = 2.0 + static_cast<double>(i);
    project.panels.push_back(panel);
  }
  return project;
}

Results run_in_worker(const Project& project, const WorkerLimits& limits = tight_limits()) {
  LoadedPlugin plugin = load_plugin_in_worker(test_plugin("misbehaving"), limits);
  plugin.outputs = {{"areas.csv", "Areas", "One row a panel.", {{"mark", "", "mark"}, {"area_m2", "m²", "gross"}}}};
  NoProgress progress;
  return run_checks(project, {}, {plugin}, 2, progress);
}

/// The failure that the one panel of that name leaves; the others have their findings.
std::string failure_of_panel(const std::string& name, const WorkerLimits& limits = tight_limits()) {
  const Results results = run_in_worker(project_with({"", "", name, "", ""}), limits);
  REQUIRE(results.failures.size() == 1);
  for (const std::size_t sound : {0U, 1U, 3U, 4U}) CHECK(results.panel_findings[sound].size() == 2);
  REQUIRE(results.panel_findings[2].size() == 1);
  CHECK(results.panel_findings[2][0].check == "misbehaving.run");
  CHECK(results.panel_findings[2][0].verdict == Verdict::not_assessed);
  CHECK(results.project_findings.size() == 1);
  return results.failures[0];
}

Finding finding_with_all_members() {
  Finding finding;
  finding.check = "heat.flow";
  finding.title = "Flow";
  finding.panel = "id";
  finding.value = -0.0;
  finding.unit = "W";
  finding.limit = std::string("A1");
  finding.relation = Relation::equals;
  finding.utilisation = 0.1;
  finding.decimals = -1;
  finding.verdict = Verdict::information;
  finding.reason = "because";
  finding.basis = Basis::declared;
  finding.clause = "ISO 6946:2017, 6";
  Input input;
  input.name = "λ";
  input.value = 0.04;
  input.origin.kind = OriginKind::setting;
  input.origin.line = 4000000000U;
  input.origin.entity = "IfcWall";
  input.origin.global_id = "IfcWall";
  input.origin.key = "a.b";
  finding.inputs = {input, input};
  finding.steps = {{"step", "s", std::monostate{}, "m", "s = 1"}};
  finding.values = {{"id", 1.0, "m"}};
  finding.notes = {"note", ""};
  finding.tables = {{"table", {{"column", "m"}}, {{1.0}, {std::string("x")}}, "id"}};
  finding.series = {{"chart", "x", "m", "y", "s", {{"curve", {{1.0, 2.0}}}}}};
  finding.bar_charts = {{"bars", "axis", "m", {"part"}, {{"bar", {{0, -1.0, 1.0}}}}}};
  Drawing drawing;
  drawing.title = "section";
  drawing.polygons = {{{{0.0, 0.0}, {1.0, 0.0}}, Hatch::air, LineStyle::centre, "label", 3}};
  drawing.lines = {{{0.0, 0.0}, {1.0, 1.0}, LineStyle::dashed}};
  drawing.dimensions = {{{0.0, 0.0}, {1.0, 1.0}, 0.5, "text"}};
  drawing.texts = {{{0.0, 1.0}, "text"}};
  finding.drawings = {drawing};
  return finding;
}

std::string bytes_of(const Finding& finding) {
  ByteWriter writer;
  writer(finding);
  return writer.take();
}

}  // namespace

TEST_CASE("A panel on which a plugin exits, crashes or throws costs its own findings alone") {
  const std::string failed = "plugin 'misbehaving' failed on panel 'P2': ";
  CHECK(failure_of_panel("exits") == failed + "its worker ended with status 0 instead of giving an answer");
  CHECK(failure_of_panel("ends at once") == failed + "its worker ended with status 7 instead of giving an answer");
  CHECK(failure_of_panel("aborts") ==
        failed + "its worker was killed by signal 6 (Aborted) instead of giving an answer");
  CHECK(failure_of_panel("throws a number") == failed + "threw something that is not a std::exception");
  CHECK(failure_of_panel("crashes") ==
        failed + "its worker was killed by signal 11 (Segmentation fault) instead of giving an answer");
}

TEST_CASE("A child is waited for until it has ended by itself, and not at all where it must end at once") {
  // It ends after a moment, with a status that nothing else gives.
  const auto ended = [](bool at_once) {
    const Child child = fork_child(
        [](Channel&) {
          std::this_thread::sleep_for(std::chrono::milliseconds(30));
          ::_exit(7);
        },
        0);
    return end_in_words(end_child(child.process, at_once));
  };
  CHECK(ended(false) == "ended with status 7");
  CHECK(ended(true) == "was killed by signal 9 (Killed)");
}

TEST_CASE("A plugin that hangs is stopped and says how to give it longer") {
  WorkerLimits limits = tight_limits();
  limits.panel = std::chrono::seconds(2);
  CHECK(failure_of_panel("hangs", limits) ==
        "plugin 'misbehaving' failed on panel 'P2': it gave no answer within 2 s and was stopped; mend the plugin, or "
        "give it longer with --time-limit");
}

TEST_CASE("A plugin that eats memory does not take that of the machine") {
  // A sanitizer ends the process where the library would throw.
  CHECK_THAT(failure_of_panel("eats memory"), Catch::Contains("it asked for more memory than its worker may take") ||
                                                  Catch::Contains("instead of giving an answer"));
}

// A sanitizer takes memory of its own, and ends the process where the library would throw.
TEST_CASE("A child may take its limit of memory beyond what its parent has, and no more", "[plain]") {
  constexpr std::size_t kMebibyte = std::size_t{1} << 20;
  const std::vector<char> of_parent(64 * kMebibyte, 'x');
  const auto takes = [&](std::size_t mebibytes) {
    Child child = fork_child(
        [&](Channel& channel) {
          try {
            const std::vector<char> more(mebibytes * kMebibyte, of_parent.back());
            channel.send(std::string(1, more.back()));
          } catch (const std::bad_alloc&) {
            channel.send("none");
          }
        },
        32 * kMebibyte);
    std::string answer;
    REQUIRE(child.channel.receive(answer, std::chrono::seconds(60)) == ChannelState::received);
    end_child(child.process, false);
    return answer;
  };
  CHECK(takes(24) == "x");
  CHECK(takes(40) == "none");
}

TEST_CASE("A plugin that ends while it starts or checks the project is told, and panels keep what they have") {
  const Results start = run_in_worker(project_with({"", ""}, "start exits"));
  CHECK(start.failures == std::vector<std::string>{"plugin 'misbehaving' could not start on the project: its worker "
                                                   "ended with status 0 instead of giving an answer"});
  const Results throwing = run_in_worker(project_with({""}, "start throws a number"));
  CHECK(throwing.failures == std::vector<std::string>{"plugin 'misbehaving' could not start on the project: threw "
                                                      "something that is not a std::exception"});
  const Results project = run_in_worker(project_with({"", ""}, "project aborts"));
  REQUIRE_FALSE(project.failures.empty());
  CHECK(project.failures[0] ==
        "plugin 'misbehaving' failed on the project: its worker was killed by signal 6 "
        "(Aborted) instead of giving an answer");
  CHECK(project.panel_findings[1].size() == 2);
}

TEST_CASE("A run in workers gives what a run in this process gives, its tables too") {
  const Project project = project_with({"", "talks", "", ""});
  LoadedPlugin plugin = load_plugin(test_plugin("misbehaving"));
  plugin.outputs = {{"areas.csv", "Areas", "One row a panel.", {{"mark", "", "mark"}, {"area_m2", "m²", "gross"}}}};
  NoProgress progress;
  const Results here = run_checks(project, {}, {plugin}, 2, progress);
  const Results there = run_in_worker(project);
  CHECK(there.failures.empty());
  REQUIRE(there.panel_findings.size() == here.panel_findings.size());
  for (std::size_t i = 0; i < here.panel_findings.size(); ++i) {
    REQUIRE(there.panel_findings[i].size() == here.panel_findings[i].size());
    for (std::size_t f = 0; f < here.panel_findings[i].size(); ++f) {
      CHECK(bytes_of(whole_finding(there.panel_findings[i][f])) == bytes_of(whole_finding(here.panel_findings[i][f])));
    }
  }
  REQUIRE(there.outputs.size() == 1);
  CHECK(csv_of(there.outputs[0]) == csv_of(here.outputs[0]));
}

TEST_CASE("A plugin that exits when it is loaded is refused and the others are not") {
  const testing::TemporaryFolder folder;
  for (const char* name : {"exits_when_loaded", "sound"}) {
    std::filesystem::copy_file(test_plugin(name), folder.path() / (std::string(name) + ".so"));
  }
  const PluginFolder loaded =
      load_plugins({folder.path()}, [](const auto& file) { return load_plugin_in_worker(file, tight_limits()); });
  REQUIRE(loaded.plugins.size() == 1);
  CHECK(loaded.plugins[0].info.id == "sound");
  REQUIRE(loaded.refused.size() == 1);
  CHECK_THAT(loaded.refused[0], Catch::Contains("exits_when_loaded.so' cannot say what it is: its worker ended with "
                                                "status 0 instead of giving an answer"));
}

TEST_CASE("A plugin that other users can write is not run") {
  const testing::TemporaryFolder folder;
  const auto file = folder.path() / "sound.so";
  std::filesystem::copy_file(test_plugin("sound"), file);
  const auto refusals = [&] { return load_plugins({folder.path()}).refused; };
  REQUIRE(refusals().empty());

  ::chmod(file.c_str(), 0777);
  CHECK(refusals() == std::vector<std::string>{"plugin '" + file.string() +
                                               "' is not run: it can be written by all users; take that right away "
                                               "with chmod o-w"});
  ::chmod(file.c_str(), 0755);
  ::chmod(folder.path().c_str(), 0777);
  CHECK_THAT(refusals().at(0), Catch::Contains("is not run: its folder can be written by all users"));
  ::chmod(folder.path().c_str(), 0755);
  std::filesystem::create_directory(folder.path() / "sound");
  ::chmod((folder.path() / "sound").c_str(), 0777);
  CHECK_THAT(refusals().at(0), Catch::Contains("is not run: its data folder can be written by all users"));
}

TEST_CASE("A finding in compact form reads back with every member") {
  const Finding finding = finding_with_all_members();
  const std::string bytes = bytes_of(finding);
  Finding read;
  ByteReader reader(bytes);
  reader(read);
  reader.end();
  CHECK(bytes_of(read) == bytes);
  CHECK(std::signbit(std::get<double>(read.value)));
  CHECK(read.decimals == -1);
  CHECK(read.inputs[1].origin.line == 4000000000U);
  CHECK(read.inputs[1].origin.global_id == SharedText("IfcWall"));
  CHECK(read.drawings[0].polygons[0].tint == 3);
  CHECK(std::get<std::string>(read.tables[0].rows[1][0]) == "x");
}

TEST_CASE("A compact form that is cut short or changed is an error or another finding, never a crash") {
  const std::string bytes = bytes_of(finding_with_all_members());
  for (std::size_t length = 0; length < bytes.size(); ++length) {
    Finding read;
    ByteReader reader(std::string_view(bytes).substr(0, length));
    CHECK_THROWS_AS(reader(read), std::runtime_error);
  }
  for (std::size_t at = 0; at < bytes.size(); ++at) {
    for (const char other : {'\0', '\x01', '\x7F', '\xFF'}) {
      std::string changed = bytes;
      changed[at] = other;
      Finding read;
      try {
        ByteReader reader(changed);
        reader(read);
      } catch (const std::runtime_error&) {
      }
    }
  }
}
