#include "core/api/support/project_file.h"

#include <algorithm>
#include <fstream>
#include <system_error>

namespace panel_dossier {

namespace fs = std::filesystem;

namespace {

bool is_below(const fs::path& path, const fs::path& folder) {
  const auto [at_folder, at_path] = std::mismatch(folder.begin(), folder.end(), path.begin(), path.end());
  return at_folder == folder.end() && at_path != path.end();
}

/// `https://…` and the drive of another operating system are no relative paths either.
bool is_relative_path(const std::string& location) {
  const bool has_scheme = location.find(':') < location.find('/');
  const bool has_nul = location.find('\0') != std::string::npos;
  return !location.empty() && !has_scheme && !has_nul && location.front() != '/' && location.front() != '\\';
}

}  // namespace

EvidenceStatus find_evidence_file(const fs::path& folder, const std::string& location) {
  if (!is_relative_path(location)) return EvidenceStatus::refused;
  std::error_code failed;
  const fs::path real_folder = fs::canonical(folder, failed);
  if (failed) return EvidenceStatus::missing;
  // Before the file system is asked: a path that climbs out is refused whether or not something is there.
  if (!is_below((real_folder / location).lexically_normal(), real_folder)) return EvidenceStatus::refused;
  const fs::path file = fs::weakly_canonical(real_folder / location, failed);
  if (failed) return EvidenceStatus::missing;
  if (!is_below(file, real_folder)) return EvidenceStatus::refused;
  return fs::is_regular_file(file, failed) ? EvidenceStatus::present : EvidenceStatus::missing;
}

std::optional<std::string> load_at_most(const fs::path& file, std::size_t limit_bytes) {
  std::ifstream stream(file, std::ios::binary);
  if (!stream) return std::nullopt;
  std::string text(limit_bytes + 1, '\0');
  stream.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (stream.bad()) return std::nullopt;
  text.resize(static_cast<std::size_t>(stream.gcount()));
  return text;
}

}  // namespace panel_dossier
