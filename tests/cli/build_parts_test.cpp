// Small parts of a build: its logs, its key, the export that it keeps, and what it says of its store.
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>

#include "core/api/testing/temporary_folder.h"
#include "core/cli/build/build_log.h"
#include "core/cli/build/outcome.h"
#include "core/cli/build/output/attachments.h"
#include "core/cli/build/output/signing_key.h"
#include "core/cli/build/project_plugins.h"
#include "core/cli/build/store/stored_results.h"
#include "core/cli/terminal/exit_status.h"
#include "core/intake/document/file_bytes.h"
#include "core/intake/document/sha256.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

std::size_t files_in(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

SigningOptions with_key(const fs::path& key, const PasswordSource& password = {}) {
  SigningOptions options;
  options.key = key;
  options.password = password;
  return options;
}

/// What a signer made with this password says of a key that is none.
std::string refusal_of_key(const fs::path& key, const PasswordSource& password) {
  try {
    make_signer(with_key(key, password), "2026-06-01T02:00:00Z");
    return "taken";
  } catch (const std::runtime_error& error) {
    return error.what();
  }
}

}  // namespace

TEST_CASE("The newest logs of runs are kept, two of one second beside each other, and other files left alone") {
  const testing::TemporaryFolder folder;
  for (const char* name : {"2020-01-01T02-00-00Z.log", "2020-01-02T02-00-00Z-2.log", "2020-01-03T02-00-00Z.log"}) {
    folder.write("out.logs/" + std::string(name), "old");
  }
  folder.write("out.logs/notes.log", "somebody's");
  fs::path first;
  {
    const RunLog log(folder.path() / "out", {ConsoleDetail::quiet, 3});
    first = log.file();
    CHECK(fs::exists(first));
    CHECK(files_in(folder.path() / "out.logs") == 4);
    CHECK_FALSE(fs::exists(folder.path() / "out.logs/2020-01-01T02-00-00Z.log"));
    CHECK(fs::exists(folder.path() / "out.logs/2020-01-02T02-00-00Z-2.log"));
  }
  const RunLog second(folder.path() / "out", {ConsoleDetail::quiet, 3});
  CHECK(second.file() != first);
  CHECK(fs::exists(first));
  CHECK(fs::exists(folder.path() / "out.logs/notes.log"));
  const RunLog none(folder.path() / "other", {ConsoleDetail::quiet, 0});
  CHECK(none.file().empty());
  CHECK_FALSE(fs::exists(folder.path() / "other.logs"));
}

TEST_CASE("A build's own log has no clock where its time is fixed, and no message forges a line of it") {
  const testing::TemporaryFolder folder;
  RunLog log(folder.path() / "out", {ConsoleDetail::quiet, 1});
  const fs::path plain = folder.path() / "build.log";
  log.add_build_log(plain, false);
  log.logger().info("two\nlines");
  log.of_run().info("of the run alone");
  log.logger().debug("an input");
  log.logger().flush();
  const std::string text = read_file(plain);
  CHECK_THAT(text, Catch::Matchers::StartsWith("info: two") && Contains("debug: an input\n"));
  CHECK(std::count(text.begin(), text.end(), '\n') == 2);
  CHECK_THAT(text, !Contains("of the run alone"));
  log.of_run().flush();
  CHECK_THAT(read_file(log.file()), Contains("of the run alone"));
  const fs::path clocked = folder.path() / "clocked.log";
  log.add_build_log(clocked, true);
  log.logger().info("now");
  CHECK_THAT(read_file(clocked), Catch::Matchers::StartsWith("20") && Contains(" info: now\n"));
  CHECK_THROWS(log.add_build_log(folder.path(), true));
}

TEST_CASE("A key that others may write is refused, one that they may read is warned of") {
  const testing::TemporaryFolder folder;
  const fs::path key = folder.write("key.p12", "no key");
  const auto rights = [&key](unsigned mode) { fs::permissions(key, static_cast<fs::perms>(mode)); };
  for (const unsigned mode : {0620U, 0602U}) {
    rights(mode);
    CHECK_THAT(refusal_of_key(key, {}), Contains("can be written by others than its owner"));
  }
  for (const unsigned mode : {0640U, 0604U}) {
    rights(mode);
    CHECK_THAT(key_warning(with_key(key)), Contains("can be read by others than its owner"));
  }
  rights(0600);
  CHECK(key_warning(with_key(key)).empty());
  CHECK_THAT(refusal_of_key(key, {}), !Contains("others than its owner"));
  CHECK(key_warning({}).empty());
  CHECK(make_signer({}, "2026-06-01T02:00:00Z") != nullptr);
}

TEST_CASE("A password that is not there or does not end is named by its source") {
  const testing::TemporaryFolder folder;
  const fs::path key = folder.write("key.p12", "no key");
  fs::permissions(key, static_cast<fs::perms>(0600));
  CHECK_THAT(refusal_of_key(key, {std::nullopt, "PANEL_DOSSIER_NO_SUCH_VARIABLE"}),
             Contains("environment variable 'PANEL_DOSSIER_NO_SUCH_VARIABLE' is not set"));
  CHECK_THAT(refusal_of_key(key, {987654, ""}), Contains("from file descriptor 987654"));
  const auto refusal_of_length = [&](std::size_t length) {
    std::array<int, 2> ends{};
    REQUIRE(::pipe(ends.data()) == 0);
    const std::string text(length, 'x');
    REQUIRE(::write(ends[1], text.data(), text.size()) == static_cast<ssize_t>(length));
    ::close(ends[1]);
    const std::string refusal = refusal_of_key(key, {ends[0], ""});
    ::close(ends[0]);
    return refusal;
  };
  CHECK_THAT(refusal_of_length(4097), Contains("longer than 4096 bytes"));
  CHECK_THAT(refusal_of_length(4096), !Contains("longer than 4096 bytes"));
}

TEST_CASE("The export waits in a file with its hash and type, and is gone with what keeps it") {
  const testing::TemporaryFolder folder;
  const auto type_of = [&folder](std::string bytes) {
    const std::string before = bytes;
    const KeptExport kept(bytes, folder.path());
    CHECK(bytes.empty());
    CHECK(kept.bytes() == before);
    CHECK(kept.sha256() == to_hex(sha256(before)));
    return kept.media_type();
  };
  CHECK(type_of("<?xml version=\"1.0\"?><ifcXML/>") == "application/xml");
  CHECK(type_of("ISO-10303-21;\nHEADER;") == "application/p21");
  CHECK(type_of("PK\x03\x04 and so on") == "application/zip");
  CHECK(files_in(folder.path()) == 0);
}

TEST_CASE("Results, export, settings, properties and tables are attached, each under a name of its own") {
  const testing::TemporaryFolder folder;
  std::string bytes = "<ifcXML/>";
  const KeptExport kept(bytes, folder.path());
  Inputs inputs;
  const auto names_and_types = [&] {
    std::string text;
    for (const Attachment& attachment : attachments_of(inputs, kept, "hall.ifcxml", folder.path() / "results.json")) {
      text += attachment.name + " " + attachment.mime_type + " " + attachment.relationship + "\n";
    }
    return text;
  };
  const std::string without_settings = names_and_types();
  CHECK_THAT(without_settings, Catch::Matchers::StartsWith("results.json application/json Data\n"
                                                           "hall.ifcxml application/xml Source\n") &&
                                   !Contains("settings.json"));
  inputs.settings_bytes = "{}";
  inputs.settings_files.resize(2);
  inputs.settings_files[0].location = "rates/2026.csv";
  inputs.settings_files[1].location = "rates/2027.XLSX";
  CHECK_THAT(
      names_and_types(),
      Contains("settings.json application/json Source\n") && Contains("rates-2026.csv text/csv Source\n") &&
          Contains("rates-2027.XLSX application/vnd.openxmlformats-officedocument.spreadsheetml.sheet Source\n"));
}

TEST_CASE("The status of a build is that of its worst verdict, and incomplete goes before all") {
  ResultsDocument document;
  const auto status_with = [&document](const std::vector<Verdict>& verdicts) {
    document.project_findings.clear();
    for (const Verdict verdict : verdicts) document.project_findings.emplace_back().verdict = verdict;
    return status_of(document);
  };
  CHECK(status_with({}) == exit_status::kClean);
  CHECK(status_with({Verdict::pass, Verdict::information}) == exit_status::kClean);
  CHECK(status_with({Verdict::evidence_needed, Verdict::not_assessed}) == exit_status::kOpen);
  CHECK(status_with({Verdict::not_assessed}) == exit_status::kOpen);
  CHECK(status_with({Verdict::not_assessed, Verdict::fail}) == exit_status::kVerdictFails);
  document.build.incomplete = true;
  CHECK(status_with({Verdict::fail}) == exit_status::kIncomplete);
}

TEST_CASE("An incomplete build is signed with a demonstration key, whatever key was given") {
  const std::unique_ptr<Signer> demonstration = make_demonstration_signer();
  BuildSummary build;
  CHECK(demonstration_if_incomplete(build, *demonstration) == nullptr);
  build.incomplete = true;
  // There is nothing to take away from a key that is none for issue.
  CHECK(demonstration_if_incomplete(build, *demonstration) == nullptr);
  CHECK(build.warnings.empty());
}

TEST_CASE("A plugin that the settings do not allow is taken out and refused, one whose hash they list stays") {
  const testing::TemporaryFolder folder;
  PluginFolder plugins;
  for (const char* name : {"known.so", "unknown.so"}) {
    LoadedPlugin plugin;
    plugin.file = folder.path() / name;
    std::ofstream(plugin.file) << name;
    plugins.plugins.push_back(plugin);
  }
  Settings settings;
  refuse_not_allowed(plugins, settings);
  CHECK(plugins.plugins.size() == 2);
  settings.set("plugins.allowed.0", to_hex(sha256("known.so")));
  refuse_not_allowed(plugins, settings);
  REQUIRE(plugins.plugins.size() == 1);
  CHECK(plugins.plugins.front().file.filename() == "known.so");
  REQUIRE(plugins.refused.size() == 1);
  CHECK_THAT(plugins.refused.front(), Contains("unknown.so' is not run: its SHA-256 " + to_hex(sha256("unknown.so"))));
}

TEST_CASE("Why results were computed is told by plugin and cause, of all panels or of one") {
  Project project;
  for (const char* mark : {"P-1", "P-2", "P-3"}) {
    Panel panel;
    panel.mark = mark;
    project.panels.push_back(panel);
  }
  Results results;
  results.reused = 4;
  results.computed = {{"fire", 0, "a setting"},
                      {"fire", 1, "a setting"},
                      {"fire", 2, "a setting"},
                      {"thermal", 1, "the panel"},
                      {"thermal", 2, ""}};
  CHECK(store_use_in_words(results) == "9 results of panels: 4 from the store, 5 computed");
  CHECK(explanation(project, results, "") ==
        std::vector<std::string>{"fire: computed for all panels: a setting",
                                 "thermal: computed for P-3: nothing new, but the store no longer held it",
                                 "thermal: computed for P-2: the panel"});
  CHECK(explanation(project, results, "P-2") ==
        std::vector<std::string>{"fire: computed for P-2: a setting", "thermal: computed for P-2: the panel"});
  CHECK_THROWS_WITH(explanation(project, results, "P-9"), Contains("no panel has the mark 'P-9'"));
  results.computed.push_back({"fire", std::nullopt, "a setting"});
  results.reused_of_project = 1;
  CHECK_THAT(store_use_in_words(results), Contains("; of the project: 1 from the store, 1 computed"));
  results.reused_of_project = 3;
  CHECK(store_use_in_words(results) ==
        "9 results of panels: 4 from the store, 5 computed; of the project: 3 from the store, 1 computed");
  CHECK(explanation(project, results, "").back() == "fire: computed for the project: a setting");
  CHECK(explanation(project, results, "P-2").size() == 2);
  results.computed.clear();
  CHECK(explanation(project, results, "").front() == "nothing was computed: all results came from the store");
}

TEST_CASE(
    "A store lies beside the output or where it is told, and one that cannot be made is gone without or refused") {
  const testing::TemporaryFolder folder;
  const fs::path out = folder.path() / "out";
  CHECK(store_file({}, out / "") == folder.path() / "out.store");
  StoreOptions named;
  named.file = folder.path() / "nowhere" / "shared.store";
  CHECK(store_file(named, out) == named.file);
  std::vector<std::string> warnings;
  CHECK_THROWS_AS(open_store(named, out, warnings), std::runtime_error);
  CHECK(open_store({}, folder.path() / "nowhere" / "out", warnings) == nullptr);
  CHECK(warnings.size() == 1);
  StoreOptions none;
  none.none = true;
  CHECK(open_store(none, out, warnings) == nullptr);
  CHECK_FALSE(fs::exists(folder.path() / "out.store"));
  CHECK(open_store({}, out, warnings) != nullptr);
  CHECK(fs::exists(folder.path() / "out.store"));
}
