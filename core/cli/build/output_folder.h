// The output folder, replaced as a whole or not at all.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace panel_dossier {

/// A hidden folder beside the target, in which a build is written; `publish` puts it in the target's place in one step
/// of the file system. Destroyed before that, it removes itself and leaves the target as it was; a killed run leaves
/// only the hidden folder, which the next run clears. Holds a lock, so that two runs never write one target at once.
/// One thread.
class OutputFolder {
 public:
  /// `outputs` are the names of the tables that this build's plugins write; those of an earlier build stand in its
  /// results.json. Throws std::runtime_error when the target is a file, holds files that no build wrote, is being
  /// written by another run, or its parent cannot be written.
  OutputFolder(const std::filesystem::path& target, const std::vector<std::string>& outputs);
  OutputFolder(const OutputFolder&) = delete;
  OutputFolder& operator=(const OutputFolder&) = delete;
  ~OutputFolder();

  /// Where to write meanwhile.
  const std::filesystem::path& staging() const { return staging_; }
  const std::filesystem::path& target() const { return target_; }

  /// Puts the staged files in the target's place and drops what was there. Throws std::runtime_error and leaves the
  /// target as it was when the file system refuses.
  void publish();

 private:
  std::filesystem::path target_;
  std::filesystem::path staging_;
  std::vector<std::string> outputs_;
  int lock_ = -1;
};

}  // namespace panel_dossier
