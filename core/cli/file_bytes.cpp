#include "core/cli/file_bytes.h"

#include <cerrno>
#include <cstring>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace panel_dossier {

std::string read_file(const std::filesystem::path& file) {
  if (std::filesystem::is_directory(file)) throw std::runtime_error("'" + file.string() + "' is a folder, not a file");
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

}  // namespace panel_dossier
