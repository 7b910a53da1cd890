// Archives in memory, made for tests.
#pragma once

#include <zip.h>

#include <cstddef>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace panel_dossier::testing {

/// A zip archive of these entries, deflated.
inline std::string zip_bytes(const std::vector<std::pair<std::string, std::string>>& entries) {
  zip_error_t error;
  zip_error_init(&error);
  zip_source_t* buffer = zip_source_buffer_create(nullptr, 0, 0, &error);
  zip_source_keep(buffer);
  zip_t* archive = zip_open_from_source(buffer, ZIP_TRUNCATE, &error);
  if (archive == nullptr) throw std::runtime_error("cannot make an archive");
  for (const auto& [name, content] : entries) {
    zip_source_t* source = zip_source_buffer(archive, content.data(), content.size(), 0);
    if (zip_file_add(archive, name.c_str(), source, ZIP_FL_ENC_UTF_8) < 0)
      throw std::runtime_error("cannot add an entry");
  }
  if (zip_close(archive) != 0) throw std::runtime_error("cannot close the archive");
  zip_stat_t stat;
  zip_source_stat(buffer, &stat);
  std::string bytes(static_cast<std::size_t>(stat.size), '\0');
  zip_source_open(buffer);
  zip_source_read(buffer, bytes.data(), bytes.size());
  zip_source_close(buffer);
  zip_source_free(buffer);
  return bytes;
}

}  // namespace panel_dossier::testing
