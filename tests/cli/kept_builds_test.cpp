#include "core/cli/build/nights/kept_builds.h"

#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <csignal>
#include <cstdlib>

#include "core/api/testing/temporary_folder.h"
#include "core/cli/build/nights/build_lock.h"
#include "core/cli/build/nights/clock.h"
#include "core/cli/build/nights/stop_signals.h"
#include "core/cli/build/output/output_folder.h"
#include "core/intake/document/file_bytes.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

std::string issue_text(const std::string& id, const std::string& time_utc) {
  BuildSummary build;
  build.issue = {id, "for comment"};
  build.time_utc = time_utc;
  return KeptBuilds::issue_file(build);
}

}  // namespace

TEST_CASE("The name of an issue is one that a folder can have") {
  CHECK(is_issue_id("P03"));
  CHECK(is_issue_id(std::string(32, 'a')));
  for (const char* id : {"", ".P03", "-P03", "P 03", "P/03"}) CHECK_FALSE(is_issue_id(id));
  CHECK_FALSE(is_issue_id(std::string(33, 'a')));
}

TEST_CASE("An issue is kept once with its files, and its name is taken from then on") {
  const testing::TemporaryFolder folder;
  const fs::path out = folder.path() / "out";
  const KeptBuilds kept(out);
  CHECK_FALSE(kept.last_issue());
  kept.require_new_issue("P01");
  folder.write("out/results.json", "results");
  folder.write("out/dossier.pdf", "pages");
  kept.keep_issue();  // a night's build
  CHECK_FALSE(fs::exists(folder.path() / "out.issues"));
  folder.write("out/issue.json", issue_text("P01", "2026-06-01T02:00:00Z"));
  CHECK_THROWS_WITH(kept.require_new_issue("P01"), Contains("issue 'P01' was made"));
  kept.require_new_issue("P02");
  kept.keep_issue();
  CHECK(read_file(folder.path() / "out.issues/P01/dossier.pdf") == "pages");
  CHECK(read_file(folder.path() / "out.issues/P01/results.json") == "results");
  CHECK_FALSE(fs::exists(folder.path() / "out.issues/.P01.part"));
  folder.write("out/dossier.pdf", "other pages");
  kept.keep_issue();
  CHECK(read_file(folder.path() / "out.issues/P01/dossier.pdf") == "pages");
  fs::remove(out / "issue.json");
  CHECK_THROWS_WITH(kept.require_new_issue("P01"), Contains("give the next one another name"));
  kept.require_new_issue("P02");
  // The one that is kept counts also while another stands.
  folder.write("out/issue.json", issue_text("P02", "2026-06-02T02:00:00Z"));
  CHECK_THROWS_WITH(kept.require_new_issue("P01"), Contains("issue 'P01' was made"));
  kept.require_new_issue("P03");
}

TEST_CASE("The last issue is that of the latest build, whatever its name, and what is none is passed over") {
  const testing::TemporaryFolder folder;
  folder.write("out.issues/P09/issue.json", issue_text("P09", "2026-05-01T02:00:00Z"));
  folder.write("out.issues/P01/issue.json", issue_text("P01", "2026-06-01T02:00:00Z"));
  folder.write("out.issues/P05/issue.json", issue_text("P05", "2026-05-20T02:00:00Z"));
  folder.write("out.issues/P99/issue.json", "{");
  folder.write("out.issues/Q01/notes.txt", "somebody's");
  const auto last = KeptBuilds(folder.path() / "out").last_issue();
  REQUIRE(last);
  CHECK(last->mark.id == "P01");
  CHECK(last->mark.status == "for comment");
  CHECK(last->folder == folder.path() / "out.issues/P01");
}

TEST_CASE("A history that was written is read again, and none is empty") {
  const testing::TemporaryFolder folder;
  const KeptBuilds kept(folder.path() / "out");
  CHECK(kept.history().entries().empty());
  History history("");
  HistoryEntry entry;
  entry.time_utc = "2026-06-01T02:00:00Z";
  history.add(entry);
  kept.write_history(history);
  CHECK(KeptBuilds(folder.path() / "out").history().entries().size() == 1);
}

TEST_CASE("A folder is replaced only where it holds nothing but what a build wrote") {
  const testing::TemporaryFolder folder;
  const fs::path out = folder.path() / "out";
  require_replaceable(out, {});
  for (const char* name : {"dossier.pdf", "dossier-annex.pdf", "dossier-panels-12.pdf", "pages-of-dossier-annex.pdf",
                           "dossier-panels-3.pdf.part", "pages-of-dossier-panels-3.pdf", "quantities.csv"}) {
    folder.write("out/" + std::string(name), "of a build");
  }
  require_replaceable(out, {"quantities.csv"});
  CHECK_THROWS_WITH(require_replaceable(out, {}), Contains("holds 'quantities.csv', which no build wrote"));
  for (const char* name : {"dossier-panels-.pdf", "dossier-panels-x.pdf", "dossier-panels-3.txt", "notes.txt"}) {
    const testing::TemporaryFolder other;
    other.write(name, "somebody's");
    CHECK_THROWS_WITH(require_replaceable(other.path(), {}), Contains("holds '" + std::string(name) + "'"));
  }
  const fs::path file = folder.write("file", "no folder");
  CHECK_THROWS_WITH(require_replaceable(file, {}), Contains("exists and is not a folder"));
  const testing::TemporaryFolder linked;
  fs::create_symlink(file, linked.path() / "dossier.pdf");
  CHECK_THROWS_WITH(require_replaceable(linked.path(), {}), Contains("holds 'dossier.pdf'"));
  const testing::TemporaryFolder deep;
  fs::create_directory(deep.path() / "dossier.pdf");
  CHECK_THROWS_WITH(require_replaceable(deep.path(), {}), Contains("holds 'dossier.pdf'"));
}

TEST_CASE("A build takes the place of the one before as a whole, and leaves nothing beside it") {
  const testing::TemporaryFolder folder;
  const fs::path out = folder.path() / "out";
  for (const char* pages : {"first", "second"}) {
    OutputFolder output(out / "", {});
    folder.write(".out.building/dossier.pdf", pages);
    CHECK((!fs::exists(out / "dossier.pdf") || read_file(out / "dossier.pdf") == "first"));
    output.publish();
    CHECK(read_file(out / "dossier.pdf") == pages);
  }
  CHECK_FALSE(fs::exists(folder.path() / ".out.building"));
  {
    const OutputFolder given_up(out, {});
    folder.write(".out.building/dossier.pdf", "third");
  }
  CHECK(read_file(out / "dossier.pdf") == "second");
  CHECK_FALSE(fs::exists(folder.path() / ".out.building"));
  OutputFolder aside(out, {});
  folder.write(".out.building/dossier.pdf", "fourth");
  aside.redirect(folder.path() / "out.incomplete");
  aside.publish();
  CHECK(read_file(out / "dossier.pdf") == "second");
  CHECK(read_file(folder.path() / "out.incomplete/dossier.pdf") == "fourth");
}

TEST_CASE("What lies beside an output has its name, hidden or not, whatever slash ends the path") {
  CHECK(beside("/a/out", ".store") == "/a/out.store");
  CHECK(beside("/a/out", ".lock", true) == "/a/.out.lock");
  CHECK(normalised_target("/a/b/../out/") == "/a/out");
  CHECK(normalised_target("/a/out") == "/a/out");
  CHECK(normalised_target("out") == fs::current_path() / "out");
}

TEST_CASE("The lock of an output is held by one build, which says who it is, and is gone with it") {
  const testing::TemporaryFolder folder;
  const fs::path out = folder.path() / "new" / "out";
  {
    const BuildLock lock(out);
    CHECK_THROWS_WITH(BuildLock(out), Contains("another build is writing to '" + out.string() + "': process ") &&
                                          Contains(" since " + time_now_utc().substr(0, 4)));
    CHECK(fs::exists(folder.path() / "new/.out.lock"));
  }
  CHECK_FALSE(fs::exists(folder.path() / "new/.out.lock"));
  const BuildLock again(out);
}

TEST_CASE("What was to be ignored when the program began does not stop it, but SIGTERM does") {
  const auto awaited = [](int ignored) {
    const auto before = std::signal(ignored, SIG_IGN);
    std::string names;
    {
      const StopSignals signals;
      sigset_t blocked{};
      pthread_sigmask(SIG_BLOCK, nullptr, &blocked);
      if (sigismember(&blocked, SIGINT) == 1) names += "INT ";
      if (sigismember(&blocked, SIGTERM) == 1) names += "TERM ";
      if (sigismember(&blocked, SIGHUP) == 1) names += "HUP ";
    }
    std::signal(ignored, before);
    return names;
  };
  CHECK(awaited(SIGUSR1) == "INT TERM HUP ");
  CHECK(awaited(SIGHUP) == "INT TERM ");
  CHECK(awaited(SIGINT) == "TERM HUP ");
  CHECK(awaited(SIGTERM) == "INT TERM HUP ");
}

TEST_CASE("A signal to stop ends the process with 128 and its number") {
  for (const int signal : {SIGTERM, SIGHUP}) {
    const pid_t child = ::fork();
    if (child == 0) {
      // What it says would stand among the lines of the tests.
      if (::close(STDERR_FILENO) != 0) ::_exit(1);
      const StopSignals signals;
      ::kill(::getpid(), signal);
      ::sleep(10);
      ::_exit(0);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 128 + signal);
  }
}
