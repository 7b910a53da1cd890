// Part 2: what is proved and what is open, on one page.
#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "tests/dossier/shipped_guidance.h"

using namespace panel_dossier;
using namespace panel_dossier::test;
using Catch::Matchers::Contains;

namespace {

std::string outcome_text(const SyntheticDossier& made) {
  const auto file = temporary_file("outcome.pdf");
  write_dossier(made.content(), installed_fonts(), file);
  return output_of("pdftotext '" + file.string() + "' - 2>/dev/null");
}

}  // namespace

TEST_CASE("a build in which no check passed does not read as if all were") {
  SyntheticDossier made = synthetic_dossier(1, 0);
  constexpr const char* kAllPassed = "Every check that applies is passed.";
  constexpr const char* kNothing = "Nothing is proved: no check of this build passed.";
  CHECK_THAT(outcome_text(made), Contains(kNothing) && !Contains(kAllPassed));
  put_role(made, 0, role::kMass, 400.0, Verdict::information);
  CHECK_THAT(outcome_text(made), Contains(kNothing) && !Contains(kAllPassed));
  put_role(made, 0, role::kHookLoad, 500.0, Verdict::pass);
  CHECK_THAT(outcome_text(made), Contains(kAllPassed) && !Contains(kNothing));
  put_role(made, 0, role::kHookLoad, 500.0, Verdict::fail);
  CHECK_THAT(outcome_text(made), Contains(kNothing) && Contains("Open, by cause: 1 failed"));
}

TEST_CASE("what the handover lacks is counted on the page of what is open") {
  const SyntheticDossier made = synthetic_dossier(1, 0);
  const Guidance guidance = guidance_of(made, shipped_tables());
  REQUIRE(guidance.open_points.size() > 3);
  DossierContent content = made.content();
  content.guidance = &guidance;
  const auto file = temporary_file("outcome_lacks.pdf");
  write_dossier(content, installed_fonts(), file);
  std::string text = output_of("pdftotext '" + file.string() + "' - 2>/dev/null");
  std::replace(text.begin(), text.end(), '\n', ' ');
  CHECK_THAT(text, Contains("duties that are not met): " + std::to_string(guidance.open_points.size()) + "."));
}

TEST_CASE("a build of which checks could not be run says so on the page of what is proved, and its foot can be read") {
  SyntheticDossier made = synthetic_dossier(1, 0);
  put_role(made, 0, role::kHookLoad, 500.0, Verdict::pass);
  made.results.build.incomplete = true;
  made.results.build.failures = {"the discipline 'fire' is expected and was not there"};
  const std::string text = outcome_text(made);
  CHECK_THAT(text, Contains("INCOMPLETE: part of the checks could not be run"));
  CHECK_THAT(text, Contains("Every check that was run is passed.") && !Contains("Every check that applies"));
  // Beside the long status the line of cautions is cut to where they stand.
  CHECK_THAT(text, Contains("NOT SIGNED FOR ISSUE · INCOMPLETE BUILD") && Contains("All cautions in full: part 7."));
  CHECK_THAT(text, !Contains("For competent persons; local codes"));
  made.results.build.incomplete = false;
  CHECK_THAT(outcome_text(made), Contains("For competent persons; local codes") && !Contains("INCOMPLETE"));
}

TEST_CASE("a reason that names properties names them on the pages as people do, however long its words are") {
  SyntheticDossier made = synthetic_dossier(1, 0);
  put_role(made, 0, role::kHookLoad, 500.0, Verdict::fail);
  made.results.panels.front().findings.back().reason =
      "a wider distance (Panel_Fastener.EdgeDistance), or property 'Panel_Air.DocumentId'; Panel_Own.Key stays; see "
      "Panel_Air.DocumentId. " +
      std::string(300000, 'A') + "_a.b";
  DossierContent content = made.content();
  content.property_titles = {{"Panel_Fastener.EdgeDistance", "Distance from the edge"},
                             {"Panel_Air.DocumentId", "Air test report"}};
  const auto file = temporary_file("outcome_names.pdf");
  write_dossier(content, installed_fonts(), file);
  std::string text = output_of("pdftotext -l 6 '" + file.string() + "' - 2>/dev/null");
  std::replace(text.begin(), text.end(), '\n', ' ');
  CHECK_THAT(text, Contains("a wider distance ('Distance from the edge'), or property 'Air test report'; Panel_Own.Key "
                            "stays; see 'Air test report'."));
}
