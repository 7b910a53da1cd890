#include "core/intake/graph/duration.h"

#include <catch2/catch.hpp>
#include <optional>
#include <string>

#include "tests/intake/test_support.h"

namespace panel_dossier {
namespace {

TEST_CASE("durations of the standard are read in seconds", "[intake]") {
  CHECK(seconds_of_duration("P12Y") == 12.0 * 365.25 * 86400.0);
  CHECK(seconds_of_duration("P1Y6M") == Approx(1.5 * 365.25 * 86400.0));
  CHECK(seconds_of_duration("P2W") == 14.0 * 86400.0);
  CHECK(seconds_of_duration(" P1DT12H ") == 1.5 * 86400.0);
  CHECK(seconds_of_duration("PT0.5S") == 0.5);
  CHECK(seconds_of_duration("PT1,5M") == 90.0);
  CHECK(seconds_of_duration("P0Y") == 0.0);
  for (const char* wrong : {"", "P", "PT", "12Y", "P12", "P12Y1", "PY", "-P1Y", "P-1Y", "P1M1Y", "P1H", "P1YT",
                            "P1.2.3Y", "P1Y 6M", "p1y"}) {
    INFO(wrong);
    CHECK_FALSE(seconds_of_duration(wrong));
  }
}

/// The hall with one more property beside the largest height tested.
IntakeResult read_with(const std::string& property) {
  std::string text = intake_test::file_text("hall-ifc4-nested.ifcxml");
  const std::size_t name = text.find("Name=\"MaxHeight\"");
  REQUIRE(name != std::string::npos);
  text.insert(text.rfind('<', name), property);
  return intake_test::read_text(text);
}

std::optional<double> life_of(const IntakeResult& result) {
  REQUIRE(result.project);
  const auto life = result.project->panels.front().properties.number("Panel_FireEvidence", "Life");
  return life ? std::optional(life->value) : std::nullopt;
}

TEST_CASE("a property that is a duration is read in seconds, whatever unit of time the export has", "[intake]") {
  const IntakeResult result = read_with(
      "<IfcPropertySingleValue "
      "Name=\"Life\"><NominalValue><IfcDuration-wrapper>P2W</IfcDuration-wrapper></NominalValue>"
      "</IfcPropertySingleValue>");
  CHECK(life_of(result) == 14.0 * 86400.0);
  CHECK(result.project->panels.front().properties.find("Panel_FireEvidence", "Life")->unit == "s");
}

TEST_CASE("what is no duration is an error with its line", "[intake]") {
  const IntakeResult result = read_with(
      "<IfcPropertySingleValue Name=\"Life\"><NominalValue><IfcDuration-wrapper>12 years</IfcDuration-wrapper>"
      "</NominalValue></IfcPropertySingleValue>");
  CHECK_FALSE(result.project);
  CHECK(intake_test::all_of(result.diagnostics)
            .find("'Panel_FireEvidence.Life' is '12 years', no duration; write it as "
                  "in P12Y or PT36H") != std::string::npos);
}

TEST_CASE("of a bounded value the set point is read, and nothing without it", "[intake]") {
  const auto bounded = [](const std::string& set_point) {
    return "<IfcPropertyBoundedValue Name=\"Life\"><UpperBoundValue><IfcDuration-wrapper>P60Y</IfcDuration-wrapper>"
           "</UpperBoundValue><LowerBoundValue><IfcDuration-wrapper>P20Y</IfcDuration-wrapper></LowerBoundValue>" +
           set_point + "</IfcPropertyBoundedValue>";
  };
  const std::string set_point = "<SetPointValue><IfcDuration-wrapper>P30Y</IfcDuration-wrapper></SetPointValue>";
  CHECK(life_of(read_with(bounded(set_point))) == Approx(30.0 * 365.25 * 86400.0));
  CHECK_FALSE(life_of(read_with(bounded(""))));
}

}  // namespace
}  // namespace panel_dossier
