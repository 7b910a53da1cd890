// The build's log: to the console and to build.log.
#pragma once

#include <filesystem>
#include <memory>

namespace spdlog {
class logger;
}

namespace panel_dossier {

/// `with_clock` false leaves the time out of every line of the file, so that a build with a fixed time gives the same
/// bytes. Throws std::runtime_error when the file cannot be written.
std::shared_ptr<spdlog::logger> open_build_log(const std::filesystem::path& file, bool with_clock);

}  // namespace panel_dossier
