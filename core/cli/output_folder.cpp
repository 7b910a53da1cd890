#include "core/cli/output_folder.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <stdexcept>
#include <string>
#include <string_view>
#include <system_error>

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

constexpr std::array<std::string_view, 6> kOutputs{"dossier.pdf",    "results.json", "checks.xml",
                                                   "quantities.csv", "cutting.csv",  "build.log"};

[[noreturn]] void fail(const std::string& what) {
  throw std::runtime_error(what);
}

fs::path normalised(const fs::path& target) {
  fs::path absolute = fs::absolute(target).lexically_normal();
  return absolute.has_filename() ? absolute : absolute.parent_path();
}

void require_replaceable(const fs::path& target) {
  if (!fs::exists(fs::symlink_status(target))) return;
  if (!fs::is_directory(fs::symlink_status(target))) {
    fail("output '" + target.string() + "' exists and is not a folder; choose another with --out");
  }
  for (const auto& entry : fs::directory_iterator(target)) {
    const std::string name = entry.path().filename().string();
    if (std::find(kOutputs.begin(), kOutputs.end(), name) == kOutputs.end()) {
      fail("output folder '" + target.string() + "' holds '" + name +
           "', which no build wrote; choose an empty folder or one of an earlier build");
    }
  }
}

void clear(const fs::path& folder) {
  for (const auto& entry : fs::directory_iterator(folder)) fs::remove_all(entry.path());
}

}  // namespace

OutputFolder::OutputFolder(const fs::path& target) : target_(normalised(target)) {
  require_replaceable(target_);
  staging_ = target_.parent_path() / ("." + target_.filename().string() + ".building");
  std::error_code error;
  fs::create_directories(staging_, error);
  if (error) fail("cannot write beside '" + target_.string() + "': " + error.message());
  lock_ = ::open(staging_.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (lock_ < 0) fail("cannot open '" + staging_.string() + "': " + std::strerror(errno));
  if (::flock(lock_, LOCK_EX | LOCK_NB) != 0) {
    ::close(lock_);
    fail("another build is writing to '" + target_.string() + "'; wait for it or choose another folder");
  }
  clear(staging_);
}

OutputFolder::~OutputFolder() {
  std::error_code ignored;  // a destructor has nobody to tell, and the next run clears what is left
  fs::remove_all(staging_, ignored);
  ::close(lock_);
}

void OutputFolder::publish() {
  if (!fs::exists(target_)) {
    fs::rename(staging_, target_);
    return;
  }
  // An exchange keeps a complete folder under the target's name at every moment; what it held ends up in staging.
  if (::renameat2(AT_FDCWD, staging_.c_str(), AT_FDCWD, target_.c_str(), RENAME_EXCHANGE) == 0) return;
  if (errno != EINVAL && errno != ENOSYS) {
    fail("cannot put the build in place of '" + target_.string() + "': " + std::strerror(errno) +
         "; the folder is as it was before");
  }
  // Some network file systems cannot exchange: two renames, with the last good build kept under the name beside it.
  const fs::path former = staging_.string() + ".former";
  fs::remove_all(former);
  fs::rename(target_, former);
  fs::rename(staging_, target_);
  fs::remove_all(former);
}

}  // namespace panel_dossier
