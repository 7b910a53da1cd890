#include "core/seal/file_bytes.h"

#include <algorithm>
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

ChangedCopy::ChangedCopy(const std::filesystem::path& file) : file_(file), copy_(file) {
  copy_ += ".part";
  std::error_code error;
  std::filesystem::copy_file(file_, copy_, std::filesystem::copy_options::overwrite_existing, error);
  if (!error) size_ = std::filesystem::file_size(copy_, error);
  if (!error) stream_.open(copy_, std::ios::binary | std::ios::in | std::ios::out);
  if (!error && stream_) return;
  const std::string reason = error ? error.message() : std::strerror(errno);
  std::filesystem::remove(copy_, error);
  throw std::runtime_error("'" + copy_.string() + "' cannot be written: " + reason);
}

ChangedCopy::~ChangedCopy() {
  stream_.close();
  std::error_code ignored;
  std::filesystem::remove(copy_, ignored);
}

void ChangedCopy::put(std::size_t offset, std::string_view bytes) {
  errno = 0;
  stream_.seekp(static_cast<std::streamoff>(offset));
  stream_.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  stream_.flush();
  require_sound("written");
}

void ChangedCopy::read(std::size_t begin, std::size_t end, const std::function<void(std::string_view)>& take) {
  constexpr std::size_t kBlockBytes = std::size_t{1} << 16U;
  errno = 0;
  stream_.seekg(static_cast<std::streamoff>(begin));
  for (std::string block; begin < end; begin += block.size()) {
    block.resize(std::min(end - begin, kBlockBytes));
    stream_.read(block.data(), static_cast<std::streamsize>(block.size()));
    require_sound("read");
    take(block);
  }
}

void ChangedCopy::take_place() {
  errno = 0;
  stream_.close();
  require_sound("written");
  std::filesystem::rename(copy_, file_);
}

void ChangedCopy::require_sound(const char* what) const {
  if (!stream_) throw std::runtime_error("'" + copy_.string() + "' cannot be " + what + ": " + std::strerror(errno));
}

}  // namespace panel_dossier
