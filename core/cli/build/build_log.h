// The log of a build: what the run read, decided and complained about.
#pragma once

#include <spdlog/logger.h>

#include <filesystem>
#include <memory>

namespace panel_dossier {

/// The build's log: to the console and to build.log. `with_clock` false leaves the time out of every line of the file,
/// so that a build with a fixed time gives the same bytes. Throws std::runtime_error when the file cannot be written.
std::shared_ptr<spdlog::logger> open_build_log(const std::filesystem::path& file, bool with_clock);

}  // namespace panel_dossier
