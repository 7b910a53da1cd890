#include "core/cli/build/build_log.h"

#include <spdlog/pattern_formatter.h>
#include <spdlog/sinks/basic_file_sink.h>
#include <spdlog/sinks/stdout_color_sinks.h>

#include <ctime>
#include <stdexcept>
#include <string>

#include "core/api/support/text_encoding.h"

namespace panel_dossier {

namespace {

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

}  // namespace

std::shared_ptr<spdlog::logger> open_build_log(const std::filesystem::path& file, bool with_clock) {
  try {
    auto console = std::make_shared<spdlog::sinks::stderr_color_sink_mt>();
    console->set_formatter(line_format("%^%l%$: %*"));
    auto to_file = std::make_shared<spdlog::sinks::basic_file_sink_mt>(file.string(), true);
    to_file->set_formatter(line_format(with_clock ? "%Y-%m-%dT%H:%M:%S%z %l: %*" : "%l: %*"));
    return std::make_shared<spdlog::logger>("build", spdlog::sinks_init_list{console, to_file});
  } catch (const spdlog::spdlog_ex& error) {
    throw std::runtime_error(error.what());
  }
}

}  // namespace panel_dossier
