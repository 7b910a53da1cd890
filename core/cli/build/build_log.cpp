#include "core/cli/build/build_log.h"

#include <spdlog/pattern_formatter.h>
#include <spdlog/sinks/basic_file_sink.h>
#include <spdlog/sinks/stdout_color_sinks.h>

#include <algorithm>
#include <ctime>
#include <regex>
#include <stdexcept>
#include <string>
#include <system_error>
#include <vector>

#include "core/api/support/text_encoding.h"
#include "core/cli/build/nights/clock.h"
#include "core/cli/build/output/output_folder.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

/// Names out of inputs stand in messages: none forges a line or moves the cursor.
class VisibleMessage final : public spdlog::custom_flag_formatter {
 public:
  void format(const spdlog::details::log_msg& message, const std::tm& /*time*/, spdlog::memory_buf_t& line) override {
    const std::string text = visible_text({message.payload.data(), message.payload.size()});
    line.append(text.data(), text.data() + text.size());
  }
  std::unique_ptr<spdlog::custom_flag_formatter> clone() const override { return std::make_unique<VisibleMessage>(); }
};

/// `%*` in the pattern is the message.
std::unique_ptr<spdlog::formatter> line_format(const std::string& pattern) {
  auto formatter = std::make_unique<spdlog::pattern_formatter>();
  formatter->add_flag<VisibleMessage>('*').set_pattern(pattern);
  return formatter;
}

constexpr const char* kWithClock = "%Y-%m-%dT%H:%M:%S%z %l: %*";

std::shared_ptr<spdlog::sinks::sink> file_sink(const fs::path& file, const std::string& pattern) {
  try {
    auto sink = std::make_shared<spdlog::sinks::basic_file_sink_mt>(file.string(), true);
    sink->set_formatter(line_format(pattern));
    return sink;
  } catch (const spdlog::spdlog_ex& error) {
    throw std::runtime_error(error.what());
  }
}

spdlog::level::level_enum level_of(ConsoleDetail detail) {
  switch (detail) {
    case ConsoleDetail::quiet: return spdlog::level::warn;
    case ConsoleDetail::verbose: return spdlog::level::debug;
    case ConsoleDetail::usual: break;
  }
  return spdlog::level::info;
}

/// `2026-11-25T02-00-00Z.log`, with a number behind the time where that is there already: a name that no file system
/// refuses and that sorts by time.
fs::path new_file_in(const fs::path& folder) {
  std::string name = time_now_utc();
  std::replace(name.begin(), name.end(), ':', '-');
  fs::path file = folder / (name + ".log");
  for (int i = 2; fs::exists(file); ++i) file = folder / (name + "-" + std::to_string(i) + ".log");
  return file;
}

bool is_log_of_a_run(const fs::path& file) {
  static const std::regex name(R"(\d{4}-\d\d-\d\dT\d\d-\d\d-\d\dZ(-\d+)?\.log)");
  return std::regex_match(file.filename().string(), name);
}

/// Leaves the newest; whatever else lies in the folder is somebody's.
void drop_old_logs(const fs::path& folder, std::size_t kept) {
  std::vector<fs::path> logs;
  for (const auto& entry : fs::directory_iterator(folder)) {
    if (entry.is_regular_file() && is_log_of_a_run(entry.path())) logs.push_back(entry.path());
  }
  std::ranges::sort(logs);
  std::error_code ignored;  // one that stays is tried again by the next run
  for (std::size_t i = 0; i + kept < logs.size(); ++i) fs::remove(logs[i], ignored);
}

}  // namespace

RunLog::RunLog(const fs::path& target, const LogOptions& options) {
  auto console = std::make_shared<spdlog::sinks::stderr_color_sink_mt>();
  console->set_formatter(line_format("%^%l%$: %*"));
  console->set_level(level_of(options.console));
  std::vector<spdlog::sink_ptr> sinks{console};
  if (options.kept > 0) {
    const fs::path folder = beside(target, ".logs");
    std::error_code error;
    fs::create_directory(folder, error);
    if (error) throw std::runtime_error("cannot make '" + folder.string() + "': " + error.message());
    file_ = new_file_in(folder);
    sinks.push_back(file_sink(file_, kWithClock));
    drop_old_logs(folder, options.kept);
  }
  logger_ = std::make_shared<spdlog::logger>("build", sinks.begin(), sinks.end());
  of_run_ = std::make_shared<spdlog::logger>("run", sinks.begin(), sinks.end());
  for (const auto& logger : {logger_, of_run_}) {
    logger->set_level(spdlog::level::debug);
    logger->flush_on(spdlog::level::info);
  }
}

void RunLog::add_build_log(const fs::path& file, bool with_clock) {
  logger_->sinks().push_back(file_sink(file, with_clock ? kWithClock : "%l: %*"));
}

}  // namespace panel_dossier
