#include "core/intake/document/file_writer.h"

#include <cerrno>
#include <cstring>
#include <ios>
#include <stdexcept>
#include <utility>

namespace panel_dossier {

FileWriter::FileWriter(std::filesystem::path file)
    : file_(std::move(file)), stream_(file_, std::ios::binary | std::ios::trunc) {
  require_sound();
}

void FileWriter::write(std::string_view bytes) {
  stream_.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  require_sound();
}

void FileWriter::close() {
  stream_.close();
  require_sound();
}

void FileWriter::require_sound() const {
  if (!stream_) throw std::runtime_error("cannot write '" + file_.string() + "': " + std::strerror(errno));
}

}  // namespace panel_dossier
