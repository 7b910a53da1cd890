#include "core/trace/working.h"

#include <catch2/catch.hpp>

#include "tests/trace/test_support.h"

using namespace panel_dossier;
using panel_dossier::testing::sample_finding;

namespace {

std::vector<PanelSummary> two_panels() {
  std::vector<PanelSummary> panels(2);
  panels[0].findings = {sample_finding("first")};
  panels[1].findings = {sample_finding("second")};
  return panels;
}

}  // namespace

TEST_CASE("Findings that differ in panel and place of the export alone are worked out alike") {
  auto panels = two_panels();
  for (Input& input : panels[1].findings[0].inputs) {
    if (input.origin.kind == OriginKind::export_file) input.origin.line += 100;
  }
  const auto earlier = earlier_workings(panels);
  CHECK_FALSE(earlier[0][0].has_value());
  REQUIRE(earlier[1][0].has_value());
  CHECK(earlier[1][0]->panel == 0);
  CHECK(earlier[1][0]->finding == 0);
}

TEST_CASE("A last digit, a setting's key or a note makes another working") {
  auto panels = two_panels();
  panels[1].findings[0].steps[0].value = 1e-15;
  CHECK_FALSE(earlier_workings(panels)[1][0].has_value());
  panels = two_panels();
  panels[1].findings[0].inputs[2].origin.key = "thermal.other";
  CHECK_FALSE(earlier_workings(panels)[1][0].has_value());
  panels = two_panels();
  panels[1].findings[0].notes.emplace_back("another");
  CHECK_FALSE(earlier_workings(panels)[1][0].has_value());
}
