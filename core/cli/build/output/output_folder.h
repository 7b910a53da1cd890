// The output folder, replaced as a whole or not at all.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace panel_dossier {

/// Absolute, without a slash at the end.
std::filesystem::path normalised_target(const std::filesystem::path& target);

/// What lies beside a normalised target: `/a/out` and `.logs` give `/a/out.logs`, or `/a/.out.logs` when hidden.
std::filesystem::path beside(const std::filesystem::path& target, const std::string& suffix, bool hidden = false);

/// Throws std::runtime_error when a build into the target could not replace what stands there, as OutputFolder does.
void require_replaceable(const std::filesystem::path& target, const std::vector<std::string>& outputs);

/// Brings the folder's files to the disk, so that a power cut after publishing cannot leave empty ones. Throws
/// std::runtime_error naming the file.
void bring_to_disk(const std::filesystem::path& folder);

/// A hidden folder beside the target, in which a build is written; `publish` puts it in the target's place in one step
/// of the file system. Destroyed before that, it removes itself and leaves the target as it was; a killed run leaves
/// only the hidden folder, which the next run clears. Whoever makes one holds the target's BuildLock. One thread.
class OutputFolder {
 public:
  /// `outputs` are the names of the tables that this build's plugins write; those of an earlier build stand in its
  /// results.json. Throws std::runtime_error when the target is a file, holds files that no build wrote, or its parent
  /// cannot be written.
  OutputFolder(const std::filesystem::path& target, const std::vector<std::string>& outputs);
  OutputFolder(const OutputFolder&) = delete;
  OutputFolder& operator=(const OutputFolder&) = delete;
  ~OutputFolder();

  /// Where to write meanwhile.
  const std::filesystem::path& staging() const { return staging_; }
  const std::filesystem::path& target() const { return target_; }

  /// Puts the build somewhere else: a folder on the same file system, to which the same holds. Throws as the
  /// constructor.
  void redirect(const std::filesystem::path& target);

  /// Puts the staged files in the target's place and drops what was there. Throws std::runtime_error and leaves the
  /// target as it was when the file system refuses.
  void publish();

 private:
  std::filesystem::path target_;
  std::filesystem::path staging_;
  std::vector<std::string> outputs_;
};

}  // namespace panel_dossier
