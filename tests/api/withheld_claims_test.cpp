#include "core/api/finding/withheld_claims.h"

#include <catch2/catch.hpp>

#include "core/api/testing/panels.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

const std::vector<CheckDeclaration> kChecks{
    {.id = "moss.cover",
     .title = "Moss",
     .sentence = "Moss covers the panel.",
     .clause = "none",
     .inputs = with_model({panel_dossier::property("Panel_Moss.Growth"), setting("moss.kinds.*.share")})},
    {.id = "moss.colour", .title = "Colour", .sentence = "Moss is green.", .clause = "none"}};

Project mossy_project() {
  Project project;
  Panel panel = plain_panel(1.0, 1.0);
  put(panel.properties, "Panel_Moss", "Growth", 0.1);
  project.panels.push_back(std::move(panel));
  return project;
}

/// Both checks with this verdict and a value.
CheckOutcome outcome(Verdict verdict, std::string reason = {}) {
  CheckOutcome result;
  for (const CheckDeclaration& check : kChecks) {
    Finding finding;
    finding.check = check.id;
    finding.verdict = verdict;
    finding.value = 1.0;
    finding.utilisation = 0.5;
    finding.values = {{"share", 1.0, ""}};
    finding.reason = reason;
    result.findings.push_back(std::move(finding));
  }
  return result;
}

}  // namespace

TEST_CASE("A pass that may rest on a withheld property is not assessed, and nothing of it can be read on") {
  Project project = mossy_project();
  project.panels[0].properties.withhold("Panel_Moss.Growth", "growth is doubtful");
  const WithheldClaims claims(project, {});
  CheckOutcome result = outcome(Verdict::pass);
  claims.withhold(result, kChecks, project.panels[0]);
  CHECK(result.findings[0].verdict == Verdict::not_assessed);
  CHECK(result.findings[0].reason == "growth is doubtful");
  CHECK(std::holds_alternative<std::monostate>(result.findings[0].value));
  CHECK_FALSE(result.findings[0].utilisation);
  CHECK(result.findings[0].values.empty());
  CHECK(result.findings[1].verdict == Verdict::pass);
  CHECK(claims.all() == std::vector<std::string>{"growth is doubtful"});
}

TEST_CASE("What a withheld claim does to each verdict") {
  Project project = mossy_project();
  project.panels[0].properties.withhold("Panel_Moss.Growth", "growth is doubtful");
  const WithheldClaims claims(project, {});
  const auto after = [&](Verdict verdict, const std::string& reason) {
    CheckOutcome result = outcome(verdict, reason);
    claims.withhold(result, kChecks, project.panels[0]);
    return std::pair(result.findings[0].verdict, result.findings[0].reason);
  };
  CHECK(after(Verdict::information, "") == std::pair(Verdict::not_assessed, std::string("growth is doubtful")));
  CHECK(after(Verdict::fail, "too much") == std::pair(Verdict::fail, std::string("too much; growth is doubtful")));
  CHECK(after(Verdict::evidence_needed, "no report") ==
        std::pair(Verdict::evidence_needed, std::string("no report; growth is doubtful")));
  CHECK(after(Verdict::not_assessed, "growth is doubtful").second == "growth is doubtful");
}

TEST_CASE("A check that says it does not apply is not believed on a withheld claim") {
  Project project = mossy_project();
  Settings settings;
  settings.set("moss.kinds.0.share", 40.0);
  settings.withhold("moss.kinds.0.share", "the share is doubtful");
  CHECK_FALSE(settings.number("moss.kinds.0.share"));
  CheckOutcome result;
  result.not_applicable = {{"moss.cover", "no moss"}, {"moss.colour", "no moss"}};
  WithheldClaims(project, settings).withhold(result, kChecks, project.panels[0]);
  REQUIRE(result.findings.size() == 1);
  CHECK(result.findings[0].check == "moss.cover");
  CHECK(result.findings[0].panel == project.panels[0].global_id);
  CHECK(result.findings[0].reason == "the share is doubtful");
  REQUIRE(result.not_applicable.size() == 1);
  CHECK(result.not_applicable[0].check == "moss.colour");
}

TEST_CASE("Claims of materials, parts, layers and fillings reach the panels that use them, and the project") {
  Project project = mossy_project();
  project.panels.push_back(plain_panel(1.0, 1.0));
  const std::size_t material = add_material(project, "moss", "plastic", 100.0, 0.1);
  put(project.materials[material].properties, "Panel_Moss", "Growth", 1.0);
  project.materials[material].properties.withhold("Panel_Moss.Growth", "of the material");
  add_layer(project.panels[0], "Layer", "finish", material, 0.1);
  const WithheldClaims claims(project, {});
  CheckOutcome first = outcome(Verdict::pass);
  claims.withhold(first, kChecks, project.panels[0]);
  CHECK(first.findings[0].verdict == Verdict::not_assessed);
  CheckOutcome second = outcome(Verdict::pass);
  claims.withhold(second, kChecks, project.panels[1]);
  CHECK(second.findings[0].verdict == Verdict::pass);
  CheckOutcome whole = outcome(Verdict::pass);
  claims.withhold(whole, kChecks);
  CHECK(whole.findings[0].verdict == Verdict::not_assessed);
}

TEST_CASE("A check that reads the model does not pass where the model contradicts itself") {
  Project project = mossy_project();
  project.panels[0].contradictions.emplace("layers", "a hole");
  CheckOutcome result = outcome(Verdict::pass);
  WithheldClaims(project, {}).withhold(result, kChecks, project.panels[0]);
  CHECK(result.findings[0].reason == "a hole");
  CHECK(result.findings[1].verdict == Verdict::pass);
}
