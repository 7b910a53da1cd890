// Who besides the user may write a file that is about to be run or trusted.
#include "core/pipeline/write_access.h"

#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>

#include "core/api/testing/temporary_folder.h"

using namespace panel_dossier;
using panel_dossier::testing::TemporaryFolder;

TEST_CASE("A file that others may write is told with the way to mend it") {
  const TemporaryFolder folder;
  const auto file = folder.write("plugin.so", "x");
  const auto said_of = [&](mode_t mode) {
    REQUIRE(::chmod(file.c_str(), mode) == 0);
    return writable_by_others(file);
  };
  CHECK(said_of(0600).empty());
  CHECK(said_of(0644).empty());
  CHECK(said_of(0664).empty());  // a group of one's own
  CHECK(said_of(0602) == "can be written by all users; take that right away with chmod o-w");
  CHECK(said_of(0666) == "can be written by all users; take that right away with chmod o-w");
  CHECK(writable_by_others(folder.path() / "none").find("does not tell who may write it: ") == 0);
  // Only the superuser can give a file away.
  if (::geteuid() != 0) return;
  constexpr uid_t kOther = 54321;
  REQUIRE(::chown(file.c_str(), 0, kOther) == 0);
  CHECK(said_of(0644).empty());
  CHECK(said_of(0664) == "can be written by another group's users; take that right away with chmod g-w");
  REQUIRE(::chown(file.c_str(), kOther, 0) == 0);
  CHECK(said_of(0644) == "belongs to another user, who can write it; make it your own with chown");
  // A user's own file and the superuser's are as good to a user.
  REQUIRE(::chown(folder.path().c_str(), kOther, 0) == 0);
  for (const uid_t owner : {kOther, uid_t{0}}) {
    REQUIRE(::chown(file.c_str(), owner, 0) == 0);
    REQUIRE(::seteuid(kOther) == 0);
    const std::string said = writable_by_others(file);
    REQUIRE(::seteuid(0) == 0);
    CHECK(said.empty());
  }
}
