#include "core/cli/terminal/console_progress.h"

#include <unistd.h>

#include <cmath>
#include <iostream>

namespace panel_dossier {

namespace {

constexpr std::chrono::milliseconds kRenewEvery{100};
constexpr double kSecondsBeforeEstimate = 1.0;  // an estimate from less would only flicker

double seconds(std::chrono::steady_clock::duration duration) {
  return std::chrono::duration<double>(duration).count();
}

std::string two_digits(long value) {
  return (value < 10 ? "0" : "") + std::to_string(value);
}

}  // namespace

std::string duration_text(double duration_s) {
  const long whole = std::lround(duration_s);
  if (whole < 60) return std::to_string(whole) + " s";
  if (whole < 3600) return std::to_string(whole / 60) + " min " + two_digits(whole % 60) + " s";
  return std::to_string(whole / 3600) + " h " + two_digits(whole % 3600 / 60) + " min";
}

ConsoleProgress::ConsoleProgress(bool shown) : shown_at_all_(shown), terminal_(::isatty(STDERR_FILENO) == 1) {}

ConsoleProgress::~ConsoleProgress() {
  if (line_open_) std::cerr << '\n';
}

void ConsoleProgress::begin(const std::string& stage, std::size_t total) {
  const std::lock_guard lock(mutex_);
  if (line_open_) std::cerr << '\n';
  line_open_ = false;
  stage_ = stage;
  done_ = 0;
  total_ = total;
  shown_tenths_ = 0;
  started_ = Clock::now();
  show(false);
}

void ConsoleProgress::advance(std::size_t count) {
  const std::lock_guard lock(mutex_);
  done_ += count;
  const bool last = done_ >= total_;
  if (terminal_) {
    if (last || Clock::now() - shown_ >= kRenewEvery) show(last);
    return;
  }
  const std::size_t tenths = total_ == 0 ? 10 : done_ * 10 / total_;
  if (tenths > shown_tenths_ && (last || Clock::now() - shown_ >= std::chrono::seconds(5))) {
    shown_tenths_ = tenths;
    show(last);
  }
}

std::string ConsoleProgress::line() const {
  std::string text = stage_;
  if (total_ > 0) text += ": " + std::to_string(done_) + " / " + std::to_string(total_);
  const double elapsed_s = seconds(Clock::now() - started_);
  if (done_ > 0 && done_ < total_ && elapsed_s > kSecondsBeforeEstimate) {
    const double left_s = elapsed_s / static_cast<double>(done_) * static_cast<double>(total_ - done_);
    text += ", about " + duration_text(left_s) + " left";
  }
  return text;
}

void ConsoleProgress::show(bool last) {
  if (!shown_at_all_) return;
  shown_ = Clock::now();
  if (!terminal_) {
    std::cerr << line() << '\n';
    return;
  }
  std::cerr << '\r' << line() << "\033[K" << std::flush;
  line_open_ = !last;
  if (last) std::cerr << '\n';
}

}  // namespace panel_dossier
