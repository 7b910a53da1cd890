#include "core/cli/build/build_log.h"

#include <spdlog/sinks/basic_file_sink.h>
#include <spdlog/sinks/stdout_color_sinks.h>
#include <spdlog/spdlog.h>

#include <stdexcept>

namespace panel_dossier {

std::shared_ptr<spdlog::logger> open_build_log(const std::filesystem::path& file, bool with_clock) {
  try {
    auto console = std::make_shared<spdlog::sinks::stderr_color_sink_mt>();
    console->set_pattern("%^%l%$: %v");
    auto to_file = std::make_shared<spdlog::sinks::basic_file_sink_mt>(file.string(), true);
    to_file->set_pattern(with_clock ? "%Y-%m-%dT%H:%M:%S%z %l: %v" : "%l: %v");
    return std::make_shared<spdlog::logger>("build", spdlog::sinks_init_list{console, to_file});
  } catch (const spdlog::spdlog_ex& error) {
    throw std::runtime_error(error.what());
  }
}

}  // namespace panel_dossier
