// The export as it was read, in a file of the build's own.
#pragma once

#include <filesystem>
#include <string>

#include "core/trace/results_document.h"

namespace panel_dossier {

/// Name of the file in the folder that a build is put together in.
inline constexpr const char* kKeptExport = "export-as-read";

/// From the end of reading to the attaching nothing asks for the export, which is as large as much else; and the file
/// that it was read from may have been written over in the meantime.
class KeptExport {
 public:
  /// Writes the bytes to the folder and takes them out of memory. Throws std::runtime_error when there is no room.
  KeptExport(std::string& bytes, const std::filesystem::path& folder);
  KeptExport(const KeptExport&) = delete;
  KeptExport& operator=(const KeptExport&) = delete;
  /// Removes the file.
  ~KeptExport();

  const std::filesystem::path& file() const { return file_; }
  const HexDigest& sha256() const { return sha256_; }
  /// As registered with IANA.
  const std::string& media_type() const { return media_type_; }
  /// Throws std::runtime_error when the file cannot be read any more.
  std::string bytes() const;

 private:
  std::filesystem::path file_;
  HexDigest sha256_;
  std::string media_type_;
};

}  // namespace panel_dossier
