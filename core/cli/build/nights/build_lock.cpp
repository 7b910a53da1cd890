#include "core/cli/build/nights/build_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <stdexcept>
#include <string>
#include <system_error>

#include "core/api/support/text_encoding.h"
#include "core/cli/build/nights/clock.h"
#include "core/cli/build/output/output_folder.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

std::string host_name() {
  std::array<char, 256> name{};
  return ::gethostname(name.data(), name.size() - 1) == 0 ? name.data() : "?";
}

/// What the holder wrote: `process 123 on HOST since TIME`.
std::string holder_in(int descriptor) {
  std::array<char, 512> text{};
  const ssize_t count = ::pread(descriptor, text.data(), text.size() - 1, 0);
  return count > 0 ? visible_text(text.data()) : "a process that has not said which";
}

void write_holder(int descriptor) {
  const std::string text = "process " + std::to_string(::getpid()) + " on " + host_name() + " since " + time_now_utc();
  // What it says is for people alone: a full disk must not stop the build here.
  if (::ftruncate(descriptor, 0) != 0 || ::pwrite(descriptor, text.data(), text.size(), 0) < 0) return;
}

}  // namespace

BuildLock::BuildLock(const fs::path& target) {
  const fs::path whole = normalised_target(target);
  std::error_code error;
  fs::create_directories(whole.parent_path(), error);
  if (error) throw std::runtime_error("cannot make '" + whole.parent_path().string() + "': " + error.message());
  file_ = beside(whole, ".lock", true);
  constexpr int kTries = 20;
  for (int i = 0; i < kTries; ++i) {
    if (lock_once(whole)) return;
  }
  throw std::runtime_error("'" + file_.string() + "' is taken away again and again; see who does, and try again");
}

bool BuildLock::lock_once(const fs::path& target) {
  descriptor_ = ::open(file_.c_str(), O_RDWR | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0644);
  if (descriptor_ < 0) {
    throw std::runtime_error("cannot write beside '" + target.string() + "': " + std::strerror(errno));
  }
  if (::flock(descriptor_, LOCK_EX | LOCK_NB) != 0) {
    const std::string holder = holder_in(descriptor_);
    ::close(descriptor_);
    throw std::runtime_error("another build is writing to '" + target.string() + "': " + holder +
                             "; wait for it or choose another folder");
  }
  struct stat held {};
  struct stat named {};
  if (::fstat(descriptor_, &held) == 0 && ::lstat(file_.c_str(), &named) == 0 && held.st_ino == named.st_ino &&
      held.st_dev == named.st_dev) {
    write_holder(descriptor_);
    return true;
  }
  ::close(descriptor_);
  return false;
}

BuildLock::~BuildLock() {
  ::unlink(file_.c_str());
  ::close(descriptor_);
}

}  // namespace panel_dossier
