#include "core/api/support/shared_text.h"

#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <string>
#include <thread>
#include <utility>
#include <vector>

using namespace panel_dossier;

TEST_CASE("a shared text is the text that it was given, and empty without one") {
  const SharedText text = "Pset_WallCommon.ThermalTransmittance";
  CHECK(text.str() == "Pset_WallCommon.ThermalTransmittance");
  CHECK_FALSE(text.empty());
  CHECK(SharedText().empty());
  CHECK(SharedText("").empty());
  CHECK(SharedText().str().empty());
}

TEST_CASE("copies of a shared text are the same string, equal ones are not") {
  const SharedText text = "IfcWall";
  const SharedText copy = text;
  const SharedText equal = "IfcWall";
  CHECK(&copy.str() == &text.str());
  CHECK(&equal.str() != &text.str());
  CHECK(equal == text);
  CHECK(text != SharedText("IfcSlab"));
  CHECK(SharedText("IfcSlab") < text);
  CHECK_FALSE(text < equal);
}

TEST_CASE("a shared text outlives the one that it was copied from") {
  SharedText kept;
  {
    SharedText first = "stays";
    kept = first;
    first = "goes";
    CHECK(first.str() == "goes");
  }
  CHECK(kept.str() == "stays");
  SharedText moved = std::move(kept);
  moved = static_cast<const SharedText&>(moved);
  CHECK(moved.str() == "stays");
}

TEST_CASE("threads copy one shared text at once") {
  const SharedText text = "one for all";
  std::vector<std::thread> threads;
  for (int i = 0; i < 4; ++i) {
    threads.emplace_back([&text] {
      for (int round = 0; round < 10'000; ++round) const SharedText copy = text;
    });
  }
  for (std::thread& thread : threads) thread.join();
  CHECK(text.str() == "one for all");
}

TEST_CASE("texts that are handed out are shared where they are equal") {
  SharedTexts texts;
  const SharedText first = texts.of("IfcMember");
  const SharedText other = texts.of("IfcPlate");
  const SharedText again = texts.of(std::string("IfcMember"));
  CHECK(&again.str() == &first.str());
  CHECK(other.str() == "IfcPlate");
  CHECK(texts.of("").empty());
}

TEST_CASE("a process that was forked reads the texts it was given and frees its own alone") {
  const SharedText given = "a text of the parent";
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    bool is_sound = true;
    for (int round = 0; round < 3; ++round) {
      SharedText copy = given;
      const SharedText own = "a text of the child " + std::to_string(round);
      const SharedText other = own;
      is_sound = is_sound && copy == given && other.str().ends_with(std::to_string(round));
      copy = own;
    }
    ::_exit(is_sound && given.str() == "a text of the parent" ? 0 : 1);
  }
  int status = -1;
  REQUIRE(::waitpid(child, &status, 0) == child);
  CHECK(status == 0);
  CHECK(given.str() == "a text of the parent");
}
