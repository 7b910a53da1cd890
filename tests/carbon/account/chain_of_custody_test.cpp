#include "plugins/carbon/account/chain_of_custody.h"

#include <catch2/catch.hpp>
#include <string>

#include "core/api/testing/findings.h"
#include "core/api/testing/properties.h"
#include "plugins/carbon/checks.h"
#include "tests/carbon/declared_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

Finding custody(const DeclaredPanel& model) {
  return finding_of(check(model), "carbon.chain_of_custody");
}

}  // namespace

TEST_CASE("wood with claim and document is documented in full") {
  const Finding finding = custody(DeclaredPanel());
  CHECK(finding.verdict == Verdict::information);
  CHECK(number_of(finding) == 100.0);
}

TEST_CASE("the share goes by volume and a material without claim is named") {
  DeclaredPanel model;
  add_part(model.panel(), PartKind::sheet, "Board", model.board, {{0.0, 0.1525, 0.0}, {2.4, 0.1645, 2.7}});
  const Finding finding = custody(model);
  const double timber = 5 * 0.045 * 0.140 * 2.7;
  const double board = 2.4 * 0.012 * 2.7;
  CHECK(finding.verdict == Verdict::evidence_needed);
  // Volumes are kept to a millionth of a m³ of about 0.16.
  CHECK(number_of(finding) == Approx(100.0 * timber / (timber + board)).margin(1e-3));
  CHECK(finding.reason == "material 'strand board' has no Panel_Supply.ChainOfCustodyClaim");
}

TEST_CASE("a claim of another word or without its document does not count") {
  DeclaredPanel model;
  model.replace(model.timber, "Panel_Supply", "ChainOfCustodyClaim", std::string("GREEN"));
  CHECK(custody(model).reason ==
        "material 'softwood' claims 'GREEN', which is none of CERTIFIED, CONTROLLED and RECLAIMED");
  DeclaredPanel without_document;
  without_document.project.evidence[1].status = EvidenceStatus::missing;
  CHECK(custody(without_document).reason ==
        "material 'softwood': document 'COC-1': missing: no file at that place ('evidence/COC-1')");
  CHECK(number_of(custody(without_document)) == 0.0);
}

TEST_CASE("a panel without wood says so") {
  DeclaredPanel model;
  model.panel().parts.erase(model.panel().parts.begin(), model.panel().parts.begin() + 5);
  const Finding finding = custody(model);
  CHECK(finding.verdict == Verdict::information);
  CHECK(std::get<std::string>(finding.value) == "no wood");
}

TEST_CASE("a batch whose parts differ in claim, document or date does not count, and the misfit is named") {
  DeclaredPanel model;
  Part& odd = model.panel().parts[2];
  put(odd.properties, "Panel_Supply", "ChainOfCustodyClaim", std::string("CONTROLLED"));
  const Finding finding = custody(model);
  CHECK(finding.verdict == Verdict::evidence_needed);
  CHECK(finding.reason == "material 'softwood': Panel_Supply.ChainOfCustodyClaim of '" + odd.name +
                              "' is 'CONTROLLED' but that of '" + model.panel().parts.front().name +
                              "' is 'CERTIFIED'; correct it, or give each delivery its own BatchReference");
  CHECK(number_of(finding) == 0.0);
  put(odd.properties, "Pset_ManufacturerOccurrence", "BatchReference", std::string("B-2"));
  model.project.evidence[1].scope = "softwood: CERTIFIED and CONTROLLED";
  model.project.evidence[2].scope = "softwood, batch B-2 as CONTROLLED";
  CHECK(custody(model).verdict == Verdict::information);
  CHECK(number_of(custody(model)) == 100.0);
  model.project.evidence[2].scope = "softwood, batch B-20 as CONTROLLED";
  CHECK(custody(model).reason.find("does not name the batch 'B-2'") != std::string::npos);
}
