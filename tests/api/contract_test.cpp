// What a plugin may not return.
#include "core/api/finding/contract.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

using namespace panel_dossier;

namespace {

constexpr const char* kClause = "EN 1995-1-1:2004, 6.1.6";

std::vector<CheckDeclaration> declared() {
  CheckDeclaration check;
  check.id = "trial.bending";
  check.kind = CheckKind::limit;
  check.title = "Bending";
  check.clause = kClause;
  check.units = {"MPa"};
  return {check};
}

Finding passed(double value, Relation relation, double limit) {
  Finding finding;
  finding.check = "trial.bending";
  finding.panel = "panel";
  finding.value = value;
  finding.unit = "MPa";
  finding.limit = limit;
  finding.relation = relation;
  finding.verdict = Verdict::pass;
  finding.clause = kClause;
  return finding;
}

std::string breach_of_one(const Finding& finding) {
  return contract_breach({{finding}, {}}, declared(), "panel");
}

}  // namespace

TEST_CASE("a pass that its own value and limit deny breaks the contract") {
  CHECK(breach_of_one(passed(2.0, Relation::at_most, 2.0)).empty());
  CHECK(breach_of_one(passed(2.0, Relation::at_least, 2.0)).empty());
  CHECK(breach_of_one(passed(2.0, Relation::equals, 2.0)).empty());
  CHECK(breach_of_one(passed(5.0, Relation::none, 2.0)).empty());
  for (const Finding& wrong : {passed(5.0, Relation::at_most, 2.0), passed(-2.1, Relation::at_least, -2.0),
                               passed(2.1, Relation::equals, 2.0), passed(1.9, Relation::equals, 2.0)}) {
    CHECK(breach_of_one(wrong).find("is 'pass' though its value, limit or utilisation") != std::string::npos);
    Finding failed = wrong;
    failed.verdict = Verdict::fail;
    failed.reason = "too much";
    CHECK(breach_of_one(failed).empty());
  }
}

TEST_CASE("a value that meets its limit but for the last digits passes") {
  CHECK(breach_of_one(passed(0.1 + 0.2, Relation::at_most, 0.3)).empty());
}

TEST_CASE("a pass with a utilisation above one breaks the contract") {
  Finding finding = passed(1.0, Relation::at_most, 2.0);
  finding.utilisation = 1.0;
  CHECK(breach_of_one(finding).empty());
  finding.utilisation = 1.01;
  CHECK_FALSE(breach_of_one(finding).empty());
}
