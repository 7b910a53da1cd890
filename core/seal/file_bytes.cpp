#include "core/seal/file_bytes.h"

#include <cerrno>
#include <cstring>
#include <fstream>
#include <stdexcept>
#include <system_error>

namespace panel_dossier {

std::string read_bytes(const std::filesystem::path& file) {
  if (!std::filesystem::is_regular_file(file)) {
    throw std::runtime_error("'" + file.string() + "' cannot be read: there is no such file");
  }
  std::string bytes(std::filesystem::file_size(file), '\0');
  errno = 0;
  std::ifstream stream(file, std::ios::binary);
  if (!stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()))) {
    throw std::runtime_error("'" + file.string() + "' cannot be read: " + std::strerror(errno));
  }
  return bytes;
}

void replace_file(const std::filesystem::path& file, std::string_view bytes) {
  std::filesystem::path beside = file;
  beside += ".part";
  errno = 0;
  std::ofstream stream(beside, std::ios::binary | std::ios::trunc);
  stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  stream.close();
  if (!stream) {
    const std::string reason = std::strerror(errno);
    std::error_code ignored;
    std::filesystem::remove(beside, ignored);
    throw std::runtime_error("'" + beside.string() + "' cannot be written: " + reason);
  }
  std::filesystem::rename(beside, file);
}

}  // namespace panel_dossier
