// Progress for people: one line that renews itself on a terminal, plain lines elsewhere.
#pragma once

#include <chrono>
#include <cstddef>
#include <mutex>
#include <string>

#include "core/pipeline/run.h"

namespace panel_dossier {

/// Writes to standard error. Thread-safe.
class ConsoleProgress final : public Progress {
 public:
  /// Says nothing at all unless `shown`.
  explicit ConsoleProgress(bool shown = true);
  ~ConsoleProgress() override;
  void begin(const std::string& stage, std::size_t total) override;
  void advance(std::size_t count) override;

 private:
  using Clock = std::chrono::steady_clock;

  std::string line() const;
  void show(bool last);

  std::mutex mutex_;
  bool shown_at_all_ = true;
  bool terminal_ = false;
  bool line_open_ = false;
  std::string stage_;
  std::size_t done_ = 0;
  std::size_t total_ = 0;
  std::size_t shown_tenths_ = 0;
  Clock::time_point started_;
  Clock::time_point shown_;
};

/// `40 s`, `3 min 20 s`, `2 h 05 min`.
std::string duration_text(double seconds);

}  // namespace panel_dossier
