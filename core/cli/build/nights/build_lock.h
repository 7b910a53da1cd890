// Two builds never write one output at once.
#pragma once

#include <filesystem>

namespace panel_dossier {

/// Held from the first byte that a build reads to the last that it writes. A hidden file beside the target,
/// `.NAME.lock`, which says who holds it; the lock itself is the kernel's and ends with the process, so that what a
/// killed run leaves of the file stops nobody. Destroyed, it takes the file away. One thread.
class BuildLock {
 public:
  /// Makes the folder above the target where there is none. Throws std::runtime_error when another process holds the
  /// lock, naming it and since when, or when nothing can be written there.
  explicit BuildLock(const std::filesystem::path& target);
  BuildLock(const BuildLock&) = delete;
  BuildLock& operator=(const BuildLock&) = delete;
  ~BuildLock();

  const std::filesystem::path& file() const { return file_; }

 private:
  std::filesystem::path file_;
  int descriptor_ = -1;

  /// False when the file was taken away between opening and locking it.
  bool lock_once(const std::filesystem::path& target);
};

}  // namespace panel_dossier
