// Whole files read, and files changed in a few places. Private to the seal stage.
#pragma once

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <functional>
#include <string>
#include <string_view>

namespace panel_dossier {

/// Throws std::runtime_error with the reason when the file cannot be read.
std::string read_bytes(const std::filesystem::path& file);

/// A copy beside a file that is changed in places and then takes the file's place, so that a killed run leaves the old
/// file or the new one, never a half. The file is never in memory as a whole. All throw std::runtime_error with the
/// reason, and leave the old file.
class ChangedCopy {
 public:
  explicit ChangedCopy(const std::filesystem::path& file);
  ChangedCopy(const ChangedCopy&) = delete;
  ChangedCopy& operator=(const ChangedCopy&) = delete;
  /// Removes the copy, unless it has taken its place.
  ~ChangedCopy();

  std::size_t size() const { return size_; }
  /// Overwrites what stands at the offset.
  void put(std::size_t offset, std::string_view bytes);
  /// The bytes from `begin` up to `end`, block by block.
  void read(std::size_t begin, std::size_t end, const std::function<void(std::string_view)>& take);
  void take_place();

 private:
  std::filesystem::path file_;
  std::filesystem::path copy_;
  std::size_t size_ = 0;
  std::fstream stream_;

  void require_sound(const char* what) const;
};

}  // namespace panel_dossier
