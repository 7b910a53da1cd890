// The file that holds texts notices what differs from it.
#include "tests/support/held_file.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstdlib>

#include "core/api/testing/temporary_folder.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

HeldFile held_in(const TemporaryFolder& folder, const std::vector<std::vector<std::string>>& lines) {
  HeldFile held(folder.path() / "held.csv", {"panel"}, {"value"}, {"steps"});
  for (const auto& line : lines) held.add(line);
  return held;
}

/// Writes the file, as the script does that accepts a difference.
void accept(const HeldFile& held) {
  ::setenv("PANEL_DOSSIER_HOLD", "1", 1);
  CHECK(held.faults("trace").empty());
  ::unsetenv("PANEL_DOSSIER_HOLD");
}

}  // namespace

TEST_CASE("A held file tells each text that is other, new or gone, and how to accept it") {
  const TemporaryFolder folder;
  CHECK(held_in(folder, {{"A", "", ""}}).faults("trace").empty());
  accept(held_in(folder, {{"A, \"one\"", "0.25", "R = d / λ\n"}, {"B", "fail", ""}, {"C", "", "x"}}));
  CHECK(held_in(folder, {{"A, \"one\"", "0.25", "R = d / λ\n"}, {"B", "fail", ""}, {"C", "", "x"}})
            .faults("trace")
            .empty());
  const auto faults =
      held_in(folder, {{"A, \"one\"", "0.25", "R = d · λ\n"}, {"B", "pass", ""}, {"D", "", ""}}).faults("trace");
  REQUIRE(faults.size() == 5);
  CHECK_THAT(faults[0], Catch::StartsWith("A, \"one\": other steps than ") && Catch::EndsWith(":\nR = d · λ\n"));
  CHECK(faults[1] == "B: other value than fail, now pass");
  CHECK(faults[2] == "D is new");
  CHECK(faults[3] == "C is no more");
  CHECK(faults[4] ==
        "4 differences from " + (folder.path() / "held.csv").string() + "; where they are wanted: .ci/hold trace");
}

TEST_CASE("A held file takes no name twice, no line break in a plain text and no line of another length") {
  const TemporaryFolder folder;
  CHECK_THROWS_AS(held_in(folder, {{"A", "", ""}, {"A", "", ""}}).faults("trace"), std::logic_error);
  CHECK_THROWS_AS(held_in(folder, {{"A", "two\nlines", ""}}), std::logic_error);
  CHECK_THROWS_AS(held_in(folder, {{"A", ""}}), std::logic_error);
}

TEST_CASE("Held numbers have six digits, whatever the last binary digit is") {
  CHECK(held_number(0.1 + 0.2) == "0.3");
  CHECK(held_number(1234567.0) == "1.23457e+06");
  CHECK(held_number(-4e-13) == "0");
  CHECK(held_number(0.1234565) == held_number(std::nextafter(0.1234565, 0.0)));
  CHECK(held_value(std::string("REI 60")) == "REI 60");
  CHECK(held_value({}).empty());
}
