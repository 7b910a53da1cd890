#include "core/api/finding/panel_values.h"

#include <catch2/catch.hpp>
#include <string>
#include <utility>
#include <vector>

using namespace panel_dossier;

namespace {

Finding finding_with(const std::string& check, Verdict verdict, Value value) {
  Finding finding;
  finding.check = check;
  finding.verdict = verdict;
  finding.value = std::move(value);
  return finding;
}

/// Panels A1, A2, … with one finding each of `sound.index`, beside one of another check.
class Gathered {
 public:
  explicit Gathered(const std::vector<Finding>& findings) : panels_(findings.size()) {
    for (std::size_t i = 0; i < findings.size(); ++i) {
      panels_[i].mark = "A" + std::to_string(i + 1);
      all_.push_back({&panels_[i], {finding_with("sound.other", Verdict::pass, 9.0), findings[i]}});
    }
  }

  PanelValues values() const { return panel_values(all_, "sound.index"); }

 private:
  std::vector<Panel> panels_;
  std::vector<PanelFindings> all_;
};

const Finding kNumber = finding_with("sound.index", Verdict::pass, 50.0);
const Finding kEvidence = finding_with("sound.index", Verdict::evidence_needed, {});
const Finding kUnknown = finding_with("sound.index", Verdict::not_assessed, {});
const Finding kNone = finding_with("sound.third", Verdict::pass, 1.0);

}  // namespace

TEST_CASE("values of a check are gathered in order, and panels without one are named") {
  const Gathered gathered({kNumber, kUnknown, finding_with("sound.index", Verdict::fail, 40.0), kNone});
  const PanelValues values = gathered.values();
  REQUIRE(values.entries.size() == 2);
  CHECK(values.entries[0].value == 50.0);
  CHECK(values.entries[1].value == 40.0);
  CHECK(values.entries[1].panel->mark == "A3");
  CHECK(values.marks_without == std::vector<std::string>{"A2", "A4"});
  CHECK_FALSE(values.whole());
}

TEST_CASE("only evidence is lacking where every panel without a value asks for it, and one does") {
  CHECK_FALSE(Gathered({kNumber}).values().lacks_evidence_only);
  CHECK(Gathered({kNumber}).values().whole());
  CHECK(Gathered({kNumber, kEvidence}).values().lacks_evidence_only);
  CHECK(Gathered({kEvidence}).values().lacks_evidence_only);
  CHECK_FALSE(Gathered({kEvidence, kUnknown}).values().lacks_evidence_only);
  CHECK_FALSE(Gathered({kEvidence, kNone}).values().lacks_evidence_only);
  CHECK_FALSE(Gathered({}).values().whole());
}
