// What a build does when somebody stops it.
#pragma once

#include <csignal>
#include <functional>
#include <mutex>
#include <string>
#include <thread>

namespace panel_dossier {

/// From its making to its end SIGINT, SIGTERM and SIGHUP end the process in an orderly way, whatever its threads are
/// at: what is to be cleaned up is, a message says what stands, and the exit status is 128 + the signal. A write beyond
/// the limit of a file's size (SIGXFSZ), or to a reader who left (SIGPIPE), becomes an error of that write. Make one
/// before any other thread starts, for threads inherit which signals wait.
class StopSignals {
 public:
  StopSignals();
  StopSignals(const StopSignals&) = delete;
  StopSignals& operator=(const StopSignals&) = delete;
  ~StopSignals();

  /// What to do when stopped, and what to say then. Called on another thread while the others run.
  void on_stop(std::function<void()> clean_up, std::string message);

  /// While it is held nobody stops the process: for steps that belong together, and to report a failure that the
  /// cleaning up itself may have brought about.
  std::unique_lock<std::mutex> hold() { return std::unique_lock(mutex_); }

 private:
  std::mutex mutex_;
  std::function<void()> clean_up_;
  std::string message_ = "nothing was written";
  bool over_ = false;
  sigset_t awaited_{};
  sigset_t before_{};
  std::thread waiting_;

  void wait();
};

}  // namespace panel_dossier
