#include "core/pipeline/worker/child_process.h"

#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <fstream>
#include <iostream>
#include <limits>
#include <sstream>
#include <stdexcept>
#include <thread>

namespace panel_dossier {

namespace {

constexpr int kFirstOwnDescriptor = 3;

/// Data segment and private mappings of this process in bytes, as RLIMIT_DATA counts them; 0 when the system does not
/// tell.
std::size_t data_bytes() {
  std::ifstream status("/proc/self/status");
  for (std::string line; std::getline(status, line);) {
    std::istringstream words(line);
    std::string name;
    std::size_t kibibytes = 0;
    if (words >> name >> kibibytes && name == "VmData:") return kibibytes * 1024;
  }
  return 0;
}

void limit_memory(std::size_t further_bytes) {
  const std::size_t now = data_bytes();
  if (further_bytes == 0 || now == 0) return;
  rlimit limit{};
  limit.rlim_cur = limit.rlim_max = now + further_bytes;
  ::setrlimit(RLIMIT_DATA, &limit);
}

void take_signals_as_usual() {
  for (int signal = 1; signal < NSIG; ++signal) std::signal(signal, SIG_DFL);
  sigset_t none;
  sigemptyset(&none);
  sigprocmask(SIG_SETMASK, &none, nullptr);
}

/// The own end becomes the first descriptor behind the standard ones; all others are closed.
Descriptor keep_only(const Descriptor& own) {
  ::dup2(own.number(), kFirstOwnDescriptor);
  ::close_range(kFirstOwnDescriptor + 1, std::numeric_limits<unsigned>::max(), 0);
  ::dup2(STDERR_FILENO, STDOUT_FILENO);
  return Descriptor(kFirstOwnDescriptor);
}

/// Never comes back, and runs nothing that the parent has registered for its own end.
[[noreturn]] void live_as_child(const Descriptor& own, pid_t parent, const std::function<void(Channel&)>& serve,
                                std::size_t memory_bytes) {
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
  if (::getppid() != parent) ::_exit(1);  // it died before the line above
  take_signals_as_usual();
  rlimit no_core{};
  ::setrlimit(RLIMIT_CORE, &no_core);
  Channel channel(keep_only(own));
  limit_memory(memory_bytes);
  serve(channel);
  ::_exit(0);
}

}  // namespace

Child fork_child(const std::function<void(Channel&)>& serve, std::size_t memory_bytes) {
  auto [near, far] = connected_pair();
  // What is still to be written would be written twice.
  std::cout.flush();
  std::fflush(nullptr);
  const pid_t parent = ::getpid();
  const pid_t process = ::fork();
  if (process < 0) throw std::runtime_error("no worker can be started: " + std::string(std::strerror(errno)));
  if (process == 0) live_as_child(far, parent, serve, memory_bytes);
  return {process, Channel(std::move(near))};
}

std::string end_in_words(int wait_status) {
  if (WIFEXITED(wait_status)) return "ended with status " + std::to_string(WEXITSTATUS(wait_status));
  if (!WIFSIGNALED(wait_status)) return "ended";
  const int signal = WTERMSIG(wait_status);
  return "was killed by signal " + std::to_string(signal) + " (" + ::strsignal(signal) + ")";
}

int end_child(pid_t process, bool at_once) {
  using namespace std::chrono_literals;
  int status = 0;
  if (!at_once) {
    const auto until = std::chrono::steady_clock::now() + 1s;
    while (std::chrono::steady_clock::now() < until) {
      if (::waitpid(process, &status, WNOHANG) == process) return status;
      std::this_thread::sleep_for(1ms);
    }
  }
  ::kill(process, SIGKILL);
  while (::waitpid(process, &status, 0) < 0 && errno == EINTR) {
  }
  return status;
}

}  // namespace panel_dossier
