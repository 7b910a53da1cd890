#include "core/cli/build/nights/stop_signals.h"

#include <pthread.h>
#include <unistd.h>

#include <iostream>
#include <utility>

namespace panel_dossier {

namespace {

constexpr int kFirstSignalStatus = 128;
constexpr int kWakeUp = SIGUSR2;  // ends the waiting; it stops nothing

const char* name_of(int signal) {
  switch (signal) {
    case SIGINT: return "SIGINT";
    case SIGHUP: return "SIGHUP";
    default: return "SIGTERM";
  }
}

}  // namespace

StopSignals::StopSignals() {
  std::signal(SIGXFSZ, SIG_IGN);
  std::signal(SIGPIPE, SIG_IGN);
  sigemptyset(&awaited_);
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
    struct sigaction present {};
    // Whoever started the process may have it go on without a terminal.
    const bool ignored = ::sigaction(signal, nullptr, &present) == 0 && present.sa_handler == SIG_IGN;
    if (!ignored || signal == SIGTERM) sigaddset(&awaited_, signal);
  }
  sigaddset(&awaited_, kWakeUp);
  pthread_sigmask(SIG_BLOCK, &awaited_, &before_);
  waiting_ = std::thread([this] { wait(); });
}

StopSignals::~StopSignals() {
  {
    const std::lock_guard lock(mutex_);
    over_ = true;
  }
  pthread_kill(waiting_.native_handle(), kWakeUp);
  waiting_.join();
  pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

void StopSignals::on_stop(std::function<void()> clean_up, std::string message) {
  const std::lock_guard lock(mutex_);
  clean_up_ = std::move(clean_up);
  message_ = std::move(message);
}

void StopSignals::wait() {
  int signal = 0;
  std::unique_lock lock(mutex_);
  do {
    lock.unlock();
    const int failed = sigwait(&awaited_, &signal);
    lock.lock();
    if (over_) return;
    if (failed != 0) signal = kWakeUp;
  } while (signal == kWakeUp);
  if (clean_up_) clean_up_();
  std::cerr << "\npanel-dossier: stopped by " << name_of(signal) << "; " << message_ << std::endl;
  // Not std::exit: the other threads go on working with what it would destroy.
  ::_exit(kFirstSignalStatus + signal);
}

}  // namespace panel_dossier
