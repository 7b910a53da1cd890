// Thousands of damaged exports: whatever is done to a file, it is read or refused, never neither and never a crash.
#include <catch2/catch.hpp>
#include <cstdint>
#include <initializer_list>
#include <random>

#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

/// One to eight bytes changed, removed, doubled or swapped for a piece from elsewhere in the file.
std::string damaged(std::string text, std::mt19937& random) {
  const auto below = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  const std::size_t edits = 1 + below(8);
  for (std::size_t i = 0; i < edits && text.size() > 64; ++i) {
    const std::size_t at = below(text.size() - 32);
    const std::size_t size = 1 + below(24);
    switch (below(5)) {
      case 0: text[at] = static_cast<char>(below(256)); break;
      case 1: text.erase(at, size); break;
      case 2: text.insert(at, text.substr(at, size)); break;
      case 3: text.replace(at, size, text.substr(below(text.size() - 32), size)); break;
      default: text[at] = "0123456789.-\"<>/= #$*'(),;\\"[below(28)]; break;
    }
  }
  if (below(50) == 0) text.resize(below(text.size()));
  return text;
}

void check_damaged(std::initializer_list<const char*> names, int runs_per_file) {
  std::mt19937 random(20260301);
  for (const char* name : names) {
    const std::string sound = intake_test::file_text(name);
    for (int run = 0; run < runs_per_file; ++run) {
      const IntakeResult result = intake_test::read_text(damaged(sound, random));
      if (result.project.has_value() == has_errors(result.diagnostics)) FAIL(name << " run " << run);
    }
  }
}

TEST_CASE("a damaged export gives a project or an error, whatever the damage", "[intake]") {
  check_damaged({"hall-ifc2x3.ifcxml", "hall-ifc4-nested.ifcxml", "hall-ifc4-flat-metres.ifcxml"}, 700);
}

TEST_CASE("a damaged STEP file gives a project or an error, whatever the damage", "[intake]") {
  check_damaged({"hall-ifc2x3.ifc", "hall-ifc4.ifc", "house-ifc2x3-drawing.ifc"}, 400);
}

TEST_CASE("a STEP file cut anywhere gives an error", "[intake]") {
  const std::string sound = intake_test::file_text("hall-ifc4.ifc");
  for (std::size_t size = 1; size + 2 < sound.size(); size += 37) {
    if (!has_errors(intake_test::read_text(sound.substr(0, size)).diagnostics)) FAIL("cut at byte " << size);
  }
}

}  // namespace
}  // namespace panel_dossier
