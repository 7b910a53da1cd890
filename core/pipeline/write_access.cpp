#include "core/pipeline/write_access.h"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

namespace panel_dossier {

std::string writable_by_others(const std::filesystem::path& path) {
  struct stat rights {};
  if (::stat(path.c_str(), &rights) != 0) {
    return "does not tell who may write it: " + std::string(std::strerror(errno)) + "; mend its access rights";
  }
  if ((rights.st_mode & S_IWOTH) != 0) return "can be written by all users; take that right away with chmod o-w";
  // A group of one's own holds nobody else, as is usual where new files may be written by the group.
  if ((rights.st_mode & S_IWGRP) != 0 && rights.st_gid != ::getegid() && rights.st_gid != 0) {
    return "can be written by another group's users; take that right away with chmod g-w";
  }
  if (rights.st_uid != ::geteuid() && rights.st_uid != 0) {
    return "belongs to another user, who can write it; make it your own with chown";
  }
  return {};
}

}  // namespace panel_dossier
