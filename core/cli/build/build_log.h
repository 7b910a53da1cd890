// The logs of a build: the console, a file of the run beside the output, and build.log in it.
#pragma once

#include <spdlog/logger.h>

#include <cstddef>
#include <filesystem>
#include <memory>

namespace panel_dossier {

enum class ConsoleDetail {
  quiet,    ///< warnings and errors
  usual,    ///< and what was decided
  verbose,  ///< and every input with its hash, as the files have it
};

struct LogOptions {
  ConsoleDetail console = ConsoleDetail::usual;
  std::size_t kept = 30;  ///< files of runs, the newest; 0: none is written
};

/// A log to the console and to a file of this run in the folder `NAME.logs` beside the target, from which the oldest
/// are taken away; the file's name is the machine's time. It outlives a build that is refused or fails. Throws
/// std::runtime_error when the file cannot be written.
class RunLog {
 public:
  /// `target` must be normalised.
  RunLog(const std::filesystem::path& target, const LogOptions& options);

  spdlog::logger& logger() { return *logger_; }
  /// Never writes to build.log: for what depends on what earlier runs left, such as the store.
  spdlog::logger& of_run() { return *of_run_; }
  /// Empty when none is written.
  const std::filesystem::path& file() const { return file_; }

  /// From here on writes to build.log too. `with_clock` false leaves the time out of every
  /// line, so that a build with a fixed time gives the same bytes. Throws std::runtime_error when the file cannot be
  /// written.
  void add_build_log(const std::filesystem::path& file, bool with_clock);

 private:
  std::shared_ptr<spdlog::logger> logger_;
  std::shared_ptr<spdlog::logger> of_run_;
  std::filesystem::path file_;
};

}  // namespace panel_dossier
