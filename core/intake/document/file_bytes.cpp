#include "core/intake/document/file_bytes.h"

#include <cerrno>
#include <cstring>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <system_error>

namespace panel_dossier {

std::string read_file(const std::filesystem::path& file) {
  // A pipe or a device may never end, and nobody watches a nightly run.
  const auto kind = std::filesystem::status(file);
  if (std::filesystem::exists(kind) && !std::filesystem::is_regular_file(kind)) {
    throw std::runtime_error("'" + file.string() + "' is not a file but a folder, pipe or device; give a file");
  }
  std::ifstream stream(file, std::ios::binary);
  if (!stream) throw std::runtime_error("cannot read '" + file.string() + "': " + std::strerror(errno));
  std::string bytes{std::istreambuf_iterator<char>(stream), {}};
  if (stream.bad()) throw std::runtime_error("cannot read '" + file.string() + "' to its end");
  return bytes;
}

void write_file(const std::filesystem::path& file, std::string_view bytes) {
  std::ofstream stream(file, std::ios::binary | std::ios::trunc);
  stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  stream.close();
  if (!stream) throw std::runtime_error("cannot write '" + file.string() + "': " + std::strerror(errno));
}

void write_in_one_step(const std::filesystem::path& file, std::string_view bytes) {
  const std::filesystem::path part = file.parent_path() / ("." + file.filename().string() + ".part");
  std::error_code error;
  try {
    write_file(part, bytes);
    std::filesystem::rename(part, file, error);
  } catch (const std::runtime_error&) {
    std::filesystem::remove(part, error);
    throw;
  }
  if (error) throw std::runtime_error("cannot write '" + file.string() + "': " + error.message());
}

}  // namespace panel_dossier
