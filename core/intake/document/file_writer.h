// A file that is written piece by piece.
#pragma once

#include <filesystem>
#include <fstream>
#include <string_view>

namespace panel_dossier {

/// Writes a file that need never be in memory as a whole. A file that was not closed may lack its end: whoever wants it
/// whole or not at all writes it where it is renamed or thrown away.
class FileWriter {
 public:
  /// An existing file is begun anew. Throws std::runtime_error naming the file and the reason.
  explicit FileWriter(std::filesystem::path file);
  /// Throws as the constructor, also when the disk is full.
  void write(std::string_view bytes);
  /// Throws as `write`: the last bytes may find no room.
  void close();

 private:
  std::filesystem::path file_;
  std::ofstream stream_;

  void require_sound() const;
};

}  // namespace panel_dossier
