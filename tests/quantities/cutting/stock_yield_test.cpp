#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "plugins/quantities/checks.h"
#include "tests/quantities/cassette.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

Panel framed(const std::string& mark, const std::vector<double>& lengths_m) {
  Panel panel = cassette(mark);
  panel.parts.clear();
  for (const double length_m : lengths_m) {
    panel.parts.push_back(box(PartKind::stud, "stud", 0, {0.0, 0.0, 0.0}, {0.045, 0.145, length_m}));
  }
  return panel;
}

}  // namespace

TEST_CASE("yield is framing length over stock length across all panels") {
  // 2.9 + 2.9 with one kerf needs 5.804 m: one bar of 6 m; 4.7 m is cut from 4.8 m.
  const Project project = project_of({framed("P1", {2.9, 4.7}), framed("P2", {2.9})});
  const Finding found = stock_yield(project, settings());
  CHECK(std::get<double>(found.value) == Approx(100.0 * 10.5 / 10.8).epsilon(1e-12));
  CHECK(step(found, "N") == 2.0);
  CHECK(step(found, "N_min") == 2.0);
  REQUIRE(found.tables.at(0).rows.size() == 1);
  CHECK(std::get<std::string>(found.tables[0].rows[0][4]) == "1 × 4.800 m, 1 × 6.000 m");
}

TEST_CASE("sections are never cut from each other's bars") {
  Panel panel = framed("P1", {2.0});
  panel.parts.push_back(box(PartKind::rail, "rail", 0, {0.0, 0.0, 0.0}, {2.0, 0.145, 0.06}));
  const Finding found = stock_yield(project_of({panel}), settings());
  CHECK(found.tables.at(0).rows.size() == 2);
  CHECK(step(found, "N") == 2.0);
}

TEST_CASE("boards are not cut from bars") {
  const Finding found = stock_yield(project_of({cassette("P1")}), settings());
  CHECK(step(found, "n") == 7.0);
}

TEST_CASE("a piece longer than any stock is named with what to do") {
  const Finding found = stock_yield(project_of({framed("P1", {6.001})}), settings());
  CHECK(found.verdict == Verdict::not_assessed);
  CHECK(found.reason ==
        "part 'stud' of panel 'P1' is longer than any stock length; add a longer one to 'quantities.stock_lengths_m' "
        "or joint the member");
}

TEST_CASE("missing and bad settings are named") {
  const Project project = project_of({framed("P1", {2.0})});
  CHECK(stock_yield(project, Settings{}).reason ==
        "setting 'quantities.stock_lengths_m' is missing: a list of lengths in m; setting 'quantities.saw_kerf_m' is "
        "missing");
  Settings negative = settings();
  negative.set("quantities.saw_kerf_m", -0.004);
  CHECK(stock_yield(project, negative).reason == "setting 'quantities.saw_kerf_m' must not be negative");
  Settings word = settings();
  word.set("quantities.stock_lengths_m.0", std::string("4.8 m"));
  CHECK(stock_yield(project, word).reason == "setting 'quantities.stock_lengths_m.0' is not a number: a length in m");
  Settings zero = settings();
  zero.set("quantities.stock_lengths_m.1", 0.0);
  CHECK(stock_yield(project, zero).reason ==
        "length of stock must be greater than zero (setting 'quantities.stock_lengths_m.1')");
}

TEST_CASE("a project without framing has no yield") {
  Panel panel = cassette("P1");
  panel.parts.clear();
  CHECK(stock_yield(project_of({panel}), settings()).reason == "the export gives no framing members");
}

TEST_CASE("a bar's defects are cut away before it is used") {
  Panel panel = cassette("P1");
  panel.parts = {box(PartKind::stud, "stud", 0, {0.0, 0.0, 0.0}, {0.045, 0.145, 4.79})};
  Settings defects = settings();
  CHECK(step(stock_yield(project_of({panel}), defects), "ΣL") == 4.8);
  defects.set("quantities.stock_defect_allowance_m", 0.02);
  CHECK(step(stock_yield(project_of({panel}), defects), "ΣL") == 6.0);
  defects.set("quantities.stock_defect_allowance_m", 4.8);
  CHECK(stock_yield(project_of({panel}), defects).reason ==
        "setting 'quantities.stock_defect_allowance_m' must be at least 0 and less than every stock length");
}
