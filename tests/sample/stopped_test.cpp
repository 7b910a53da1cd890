// A run that is stopped, killed or finds no room: what stands is whole, and the next run succeeds.
#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <cstdint>
#include <cstdlib>
#include <fstream>
#include <map>
#include <random>
#include <string>
#include <thread>

#include "core/api/testing/temporary_folder.h"
#include "tests/sample/sample_build.h"

using namespace panel_dossier;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

using Seconds = std::chrono::duration<double>;

/// Every file of a folder with its bytes.
std::map<std::string, std::string> bytes_in(const fs::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::directory_iterator(folder)) {
    files[entry.path().filename().string()] = text_of(entry.path());
  }
  return files;
}

/// Starts the build in a process of its own, without a shell between, and sends it the signal after a while. Returns
/// the exit status, or 128 + the signal that ended it.
int build_and_send(const SmallProject& project, const fs::path& out, int signal, Seconds after) {
  const std::string export_file = project.export_file().string();
  const std::string log = (project.folder() / "stopped.err").string();
  const pid_t child = ::fork();
  if (child == 0) {
    // Not by the streams: the child would print what waits in the parent's buffers.
    const int err = ::open(log.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0644);
    const int nowhere = ::open("/dev/null", O_WRONLY);
    if (::dup2(err, STDERR_FILENO) < 0 || ::dup2(nowhere, STDOUT_FILENO) < 0) ::_exit(127);
    ::execl(PANEL_DOSSIER_PROGRAM, PANEL_DOSSIER_PROGRAM, "build", export_file.c_str(), "--out", out.c_str(),
            "--keep-logs", "0", "--no-store", nullptr);
    ::_exit(127);
  }
  std::this_thread::sleep_for(after);
  ::kill(child, signal);
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

/// Of a build of now or of the tests' day.
bool is_whole(const fs::path& out) {
  return (run_command(verify_now_command(out / "dossier.pdf")).status == 0 ||
          run_command(verify_command(out / "dossier.pdf")).status == 0) &&
         run_command("/usr/bin/python3 -m json.tool " + quoted(out / "results.json")).status == 0;
}

/// How long a build of the project takes on this machine, just now.
Seconds time_of_a_build(const SmallProject& project, const fs::path& out) {
  const auto began = std::chrono::steady_clock::now();
  REQUIRE(run_command(build_command(project.export_file(), out)).status == 1);
  return std::chrono::steady_clock::now() - began;
}

int number_of_kills() {
  const char* wanted = std::getenv("PANEL_DOSSIER_KILLS");
  return wanted == nullptr ? 8 : std::atoi(wanted);
}

}  // namespace

// `PANEL_DOSSIER_KILLS=200 build/release/tests/sample_test "[kill]"` is the long form.
TEST_CASE("A run killed at any moment leaves the last good build byte for byte, or its own, whole", "[kill]") {
  const SmallProject project(1);
  const fs::path out = project.folder() / "out";
  const Seconds whole_time = time_of_a_build(project, out);
  auto good = bytes_in(out);
  std::mt19937 generator(std::random_device{}());
  // Beyond the end too, so that the moments about publishing are among them.
  std::uniform_real_distribution<double> moment(0.0, 1.1 * whole_time.count());
  int left_as_it_was = 0;
  const int kills = number_of_kills();
  for (int i = 0; i < kills; ++i) {
    const Seconds after(moment(generator));
    const int signal = i % 4 == 3 ? SIGTERM : SIGKILL;
    INFO("signal " << signal << " after " << after.count() << " s of " << whole_time.count() << " s");
    const int status = build_and_send(project, out, signal, after);
    auto now = bytes_in(out);
    if (now == good) {
      ++left_as_it_was;
    } else {
      CHECK(is_whole(out));
      good = std::move(now);
    }
    // Stopped before it could say so, stopped in an orderly way, or done.
    if (signal == SIGTERM && status == 128 + SIGTERM && !text_of(project.folder() / "stopped.err").empty()) {
      CHECK_FALSE(fs::exists(project.folder() / ".out.building"));
      CHECK_FALSE(fs::exists(project.folder() / ".out.lock"));
    }
  }
  if (kills > 0) CHECK(left_as_it_was > 0);
  REQUIRE(run_command(build_command(project.export_file(), out)).status == 1);
  CHECK(is_whole(out));
  CHECK_FALSE(fs::exists(project.folder() / ".out.building"));
  CHECK_FALSE(fs::exists(project.folder() / ".out.lock"));
}

TEST_CASE("SIGTERM and SIGINT end a run with a message, 143 and 130, and clean up") {
  const SmallProject project(1);
  const fs::path out = project.folder() / "out";
  const Seconds whole_time = time_of_a_build(project, out);
  const auto good = bytes_in(out);
  for (const int signal : {SIGTERM, SIGINT}) {
    // A third of the way, on a machine that may be busier by now; done all the same, it tells nothing.
    const int status = build_and_send(project, out, signal, whole_time / 3.0);
    if (status == 1) continue;
    CHECK(status == 128 + signal);
    CHECK_THAT(text_of(project.folder() / "stopped.err"),
               Contains(signal == SIGTERM ? "stopped by SIGTERM" : "stopped by SIGINT") && Contains("is whole"));
    CHECK(bytes_in(out) == good);
    CHECK_FALSE(fs::exists(project.folder() / ".out.building"));
    CHECK_FALSE(fs::exists(project.folder() / ".out.lock"));
  }
}

TEST_CASE("A file that may not grow so large ends the run with a message, and the last good build stays") {
  const SmallProject project(1);
  const fs::path out = project.folder() / "out";
  time_of_a_build(project, out);
  const auto good = bytes_in(out);
  std::uintmax_t largest = 0;
  for (const auto& [name, bytes] : good) largest = std::max<std::uintmax_t>(largest, bytes.size());
  // In blocks of 512 bytes: what stands in the way is one of several files, or the end of the largest alone.
  for (const std::uintmax_t bytes : {largest / 8, largest / 2, largest - 2048}) {
    INFO("no file above " << bytes << " bytes");
    const CommandResult result = run_command("ulimit -f " + std::to_string(bytes / 512) + "; " +
                                             build_command(project.export_file(), out) + " --keep-logs 0");
    CHECK(result.status == 3);
    CHECK_THAT(result.err, Contains("File too large") || Contains("limit of the size of files"));
    CHECK(bytes_in(out) == good);
    CHECK_FALSE(fs::exists(project.folder() / ".out.building"));
  }
}

TEST_CASE("A full disk ends the run with a message that says so, and the last good build stays") {
  const SmallProject project(1);
  const fs::path disk = project.folder() / "disk";
  fs::create_directory(disk);
  const fs::path out = disk / "out";
  time_of_a_build(project, project.folder() / "elsewhere");
  const auto room = fs::file_size(project.folder() / "elsewhere" / "results.json");
  // A disk of its own needs a mount, which not every machine allows.
  const std::string with_disk = "unshare -rm sh -c 'mount -t tmpfs -o size=" + std::to_string(room) + " none ";
  if (run_command(with_disk + disk.string() + "'").status != 0) return;
  const std::string build = std::string(PANEL_DOSSIER_PROGRAM) + " build " + project.export_file().string() +
                            " --out " + out.string() + " --build-time " PANEL_DOSSIER_SAMPLE_TIME;
  const CommandResult result = run_command(with_disk + disk.string() + " && " + build + "; status=$?; ls -a " +
                                           disk.string() + " >&2; exit $status'");
  INFO(result.err);
  CHECK(result.status == 3);
  CHECK_THAT(result.err, Contains("No space left on device") || Contains("the disk is full"));
  CHECK_THAT(result.err, Contains("is full, ") && !Contains(".out.building\n"));
}

TEST_CASE("A folder that cannot be written is named, and the second of two runs told who has it") {
  const SmallProject project(1);
  const fs::path out = project.folder() / "out";
  const fs::path lock = project.folder() / ".out.lock";
  const CommandResult locked =
      run_command("exec 9>" + quoted(lock) + "; flock 9; echo 'process 123 on host since 2026-06-01T02:00:00Z' >" +
                  quoted(lock) + "; " + build_command(project.export_file(), out));
  CHECK(locked.status == 3);
  CHECK_THAT(locked.err,
             Contains("another build is writing to") && Contains("process 123 on host since 2026-06-01T02:00:00Z"));
  const CommandResult nowhere = run_command(build_command(project.export_file(), "/proc/out"));
  CHECK(nowhere.status == 3);
  CHECK_THAT(nowhere.err, Contains("cannot write beside '/proc/out'"));
}
