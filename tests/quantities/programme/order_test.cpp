#include "plugins/quantities/programme/order.h"

#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <vector>

#include "tests/quantities/delivery_site.h"

using namespace panel_dossier;
using namespace panel_dossier::quantities;
using namespace panel_dossier::quantities::test;

namespace {

struct Given {
  double order = 0.0;  ///< 0: none
  std::string after;   ///< empty: none
};

/// Panels `A`, `B`, `C` …
Project project_with(const std::vector<Given>& given) {
  std::vector<Panel> panels;
  for (std::size_t i = 0; i < given.size(); ++i) {
    Panel panel = cassette(std::string(1, static_cast<char>('A' + i)));
    if (given[i].order != 0.0) set_order(panel, given[i].order);
    if (!given[i].after.empty()) set_after(panel, given[i].after);
    panels.push_back(std::move(panel));
  }
  return project_of(std::move(panels));
}

Panel in_order(const std::string& mark, double order) {
  Panel panel = cassette(mark);
  set_order(panel, order);
  return panel;
}

std::string order_of(const std::vector<Given>& given) {
  const Project project = project_with(given);
  const ErectionSequence sequence = erection_sequence(project);
  CHECK(sequence.problems.empty());
  std::string marks;
  for (const std::size_t index : sequence.panels) marks += project.panels[index].mark;
  return marks;
}

std::string problem_of(const std::vector<Given>& given) {
  const ErectionSequence sequence = erection_sequence(project_with(given));
  return sequence.problems.size() == 1 ? sequence.problems.front() : std::to_string(sequence.problems.size());
}

}  // namespace

TEST_CASE("panels come by their numbers, gaps allowed") {
  CHECK(order_of({{7, ""}, {2, ""}, {3, ""}}) == "BCA");
}

TEST_CASE("a panel without a number follows straight upon the panel it stands after") {
  CHECK(order_of({{1, ""}, {2, ""}, {0, "A"}}) == "ACB");
  CHECK(order_of({{1, ""}, {2, ""}, {0, "D"}, {0, "A"}}) == "ADCB");
  CHECK(order_of({{1, ""}, {2, ""}, {0, "A; B"}}) == "ABC");
}

TEST_CASE("a panel that names nobody and has no number is named") {
  CHECK(problem_of({{1, ""}, {0, ""}}) ==
        "'B' without place in the order of erection: give Panel_Identity.ErectionOrder, or the mark of the panel "
        "before it as Panel_Identity.After");
}

TEST_CASE("a number that is no whole number from 1 is named") {
  for (const double number : {-1.0, 0.5, 2.5, 1.0e12}) {
    CHECK(problem_of({{1, ""}, {number, ""}}) == "'B' whose Panel_Identity.ErectionOrder is not a whole number from 1");
  }
}

TEST_CASE("panels that share a number are named") {
  CHECK(problem_of({{1, ""}, {4, ""}, {4, ""}}) ==
        "'B' and 'C' (number 4) share a place: give each panel a Panel_Identity.ErectionOrder of its own");
}

TEST_CASE("a mark that no panel bears is named") {
  CHECK(problem_of({{1, ""}, {0, "A; Z"}}) ==
        "'B' (after 'Z') whose Panel_Identity.After names no panel of the project: correct the mark");
}

TEST_CASE("a mark that several panels bear cannot be named") {
  Project project = project_with({{1, ""}, {2, ""}, {3, "A"}});
  project.panels[1].mark = "A";
  const ErectionSequence sequence = erection_sequence(project);
  REQUIRE(sequence.problems.size() == 1);
  CHECK(sequence.problems.front() ==
        "'C' (after 'A') whose Panel_Identity.After names a mark that several panels bear: give each panel a mark of "
        "its own");
}

TEST_CASE("a number that contradicts the panel before it is named") {
  CHECK(problem_of({{1, "B"}, {2, ""}}) ==
        "'A' (after 'B') whose ErectionOrder comes before that of the panel in Panel_Identity.After: change one of the "
        "two");
}

TEST_CASE("a circle is named panel by panel") {
  CHECK(problem_of({{1, ""}, {0, "C"}, {0, "D"}, {0, "B"}}) ==
        "the order of erection goes in a circle: 'B' after 'C' after 'D' after 'B'; take one Panel_Identity.After "
        "away");
  CHECK(problem_of({{1, ""}, {2, "B"}}) ==
        "the order of erection goes in a circle: 'B' after 'B'; take one Panel_Identity.After away");
}

TEST_CASE("a panel that waits for a circle is not taken for a part of it") {
  CHECK(problem_of({{0, "B"}, {0, "C"}, {0, "B"}}) ==
        "the order of erection goes in a circle: 'B' after 'C' after 'B'; take one Panel_Identity.After away");
}

TEST_CASE("load-bearing panels below what already stands are counted") {
  Project project = numbered_project(3);
  project.storeys.resize(2);
  project.panels[0].storey = 1;
  project.panels[1].storey = 0;
  project.panels[2].storey = 0;
  project.panels[1].properties.add("Pset_WallCommon", "LoadBearing", {true, "", {}});
  CHECK(erection_sequence(project).late_bearing == 1);
}

TEST_CASE("batches are stated or counted off in erection order") {
  Settings twelve;
  CHECK(batch_of(in_order("P1", 13), twelve).empty());
  twelve.set("quantities.panels_per_batch", 12.0);
  CHECK(batch_of(in_order("P1", 12), twelve) == "1");
  CHECK(batch_of(in_order("P1", 13), twelve) == "2");
  CHECK(batch_of(cassette("P1"), twelve).empty());
  Panel stated = in_order("P1", 13);
  stated.properties.add("Panel_Identity", "Batch", {std::string("W14"), "", {}});
  CHECK(batch_of(stated, twelve) == "W14");
  CHECK(batch_before("9", "10"));
  CHECK(batch_before("10", "A"));
  CHECK_FALSE(batch_before("10", "9"));
}

TEST_CASE("a place between whole numbers is no place, and no batch is counted from it") {
  Settings twelve;
  twelve.set("quantities.panels_per_batch", 12.0);
  CHECK(erection_order(in_order("P1", 2.0)) == 2);
  CHECK_FALSE(erection_order(in_order("P1", 2.5)));
  CHECK_FALSE(erection_order(in_order("P1", 0.0)));
  CHECK(batch_of(in_order("P1", 2.5), twelve).empty());
}

TEST_CASE("the greatest number that is counted is a thousand million, for places and for batches") {
  CHECK(erection_order(in_order("P1", 1.0e9)) == 1000000000);
  CHECK_FALSE(erection_order(in_order("P1", 1.0e9 + 1.0)));
  const auto batch_in = [](double size) {
    Settings chosen;
    chosen.set("quantities.panels_per_batch", size);
    return batch_of(in_order("P1", 3), chosen);
  };
  CHECK(batch_in(1.0) == "3");
  CHECK(batch_in(0.9).empty());
  CHECK(batch_in(1.0e9) == "1");
  CHECK(batch_in(1.0e9 + 1.0).empty());
}
