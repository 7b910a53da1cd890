// What a plugin may not return.
#include "core/api/finding/contract.h"

#include <catch2/catch.hpp>
#include <functional>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "core/api/finding/roles.h"

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

TEST_CASE("a number that is not finite breaks the contract wherever it stands") {
  const double none = std::numeric_limits<double>::quiet_NaN();
  using Edit = std::function<void(Finding&)>;
  const std::vector<Edit> edits{
      [=](Finding& f) { f.value = none; },
      [=](Finding& f) { f.limit = none; },
      [=](Finding& f) { f.utilisation = none; },
      [=](Finding& f) {
        f.inputs = {{"load", "F", none, "kN", {}}};
      },
      [=](Finding& f) {
        f.steps = {{"load", "F", none, "kN", ""}};
      },
      [=](Finding& f) {
        f.values = {{"load", none, "kN"}};
      },
      [=](Finding& f) {
        f.tables = {{"loads", {{"F", "kN"}, {"n", ""}}, {{1.0, 2.0}, {1.0, none}}}};
      },
      [=](Finding& f) {
        f.series = {{"s", "x", "m", "y", "m", {{"c", {{0.0, 0.0}, {none, 1.0}}}}}};
      },
      [=](Finding& f) {
        f.series = {{"s", "x", "m", "y", "m", {{"c", {{0.0, 0.0}, {1.0, none}}}}}};
      },
      [=](Finding& f) {
        f.bar_charts = {{"b", "x", "m", {"part"}, {{"bar", {{0, none, 1.0}}}}}};
      },
      [=](Finding& f) {
        f.bar_charts = {{"b", "x", "m", {"part"}, {{"bar", {{0, 0.0, none}}}}}};
      },
      [=](Finding& f) {
        f.drawings.resize(1);
        f.drawings[0].polygons = {{{{0.0, 0.0}, {0.0, none}}, Hatch::timber, LineStyle::thin, "", 0}};
      },
      [=](Finding& f) {
        f.drawings.resize(1);
        f.drawings[0].lines = {{{0.0, 0.0}, {none, 0.0}, LineStyle::thin}};
      },
      [=](Finding& f) {
        f.drawings.resize(1);
        f.drawings[0].lines = {{{0.0, none}, {0.0, 0.0}, LineStyle::thin}};
      },
      [=](Finding& f) {
        f.drawings.resize(1);
        f.drawings[0].dimensions = {{{0.0, 0.0}, {0.0, none}, 0.1, ""}};
      },
      [=](Finding& f) {
        f.drawings.resize(1);
        f.drawings[0].texts = {{{none, 0.0}, "text"}};
      }};
  for (std::size_t i = 0; i < edits.size(); ++i) {
    INFO(i);
    Finding finding = passed(1.0, Relation::at_most, 2.0);
    edits[i](finding);
    CHECK(breach_of_one(finding) == "finding 'trial.bending' holds a number that is not finite");
  }
}

TEST_CASE("a text that is no UTF-8 breaks the contract wherever it stands") {
  const std::string bad = "b\xF6se";
  using Edit = std::function<void(Finding&)>;
  const std::vector<Edit> edits{[=](Finding& f) { f.title = bad; },
                                [=](Finding& f) { f.unit = bad; },
                                [=](Finding& f) { f.reason = bad; },
                                [=](Finding& f) { f.clause = bad; },
                                [=](Finding& f) { f.value = bad; },
                                [=](Finding& f) { f.limit = bad; },
                                [=](Finding& f) {
                                  f.notes = {"note", bad};
                                },
                                [=](Finding& f) {
                                  f.inputs = {{bad, "F", 1.0, "kN", {}}};
                                },
                                [=](Finding& f) {
                                  f.inputs = {{"load", "F", bad, "", {}}};
                                },
                                [=](Finding& f) {
                                  f.steps = {{"load", "F", 1.0, "kN", bad}};
                                },
                                [=](Finding& f) {
                                  f.steps = {{"load", "F", bad, "", ""}};
                                },
                                [=](Finding& f) {
                                  f.values = {{"load", bad, ""}};
                                },
                                [=](Finding& f) {
                                  f.tables = {{bad, {{"F", "kN"}}, {}}};
                                },
                                [=](Finding& f) {
                                  f.tables = {{"loads", {{"F", bad}}, {}}};
                                },
                                [=](Finding& f) {
                                  f.tables = {{"loads", {{"F", ""}}, {{bad}}}};
                                },
                                [=](Finding& f) {
                                  f.series = {{"s", "x", "m", "y", bad, {}}};
                                },
                                [=](Finding& f) {
                                  f.series = {{"s", "x", "m", "y", "m", {{bad, {}}}}};
                                },
                                [=](Finding& f) {
                                  f.bar_charts = {{bad, "x", "m", {}, {}}};
                                },
                                [=](Finding& f) {
                                  f.bar_charts = {{"b", "x", "m", {bad}, {}}};
                                },
                                [=](Finding& f) {
                                  f.bar_charts = {{"b", "x", "m", {}, {{bad, {}}}}};
                                },
                                [=](Finding& f) {
                                  f.drawings.resize(1);
                                  f.drawings[0].title = bad;
                                },
                                [=](Finding& f) {
                                  f.drawings.resize(1);
                                  f.drawings[0].polygons = {{{}, Hatch::timber, LineStyle::thin, bad, 0}};
                                },
                                [=](Finding& f) {
                                  f.drawings.resize(1);
                                  f.drawings[0].texts = {{{0.0, 0.0}, bad}};
                                }};
  for (std::size_t i = 0; i < edits.size(); ++i) {
    INFO(i);
    Finding finding = passed(1.0, Relation::at_most, 2.0);
    edits[i](finding);
    CHECK(breach_of_one(finding) == "finding 'trial.bending' holds a text that is not UTF-8");
  }
}

TEST_CASE("a finding keeps to what its check declares") {
  using Edit = std::function<void(Finding&)>;
  const std::vector<std::pair<std::string, Edit>> edits{
      {"names panel 'other' instead of 'panel'", [](Finding& f) { f.panel = "other"; }},
      {"is 'fail' without a reason", [](Finding& f) { f.verdict = Verdict::fail; }},
      {"is 'not assessed' without a reason", [](Finding& f) { f.verdict = Verdict::not_assessed; }},
      {"names no clause", [](Finding& f) { f.clause.clear(); }},
      {"has a table row that is not as long as its head",
       [](Finding& f) {
         f.tables = {{"t", {{"a", ""}}, {{1.0, 2.0}}}};
       }},
      {"gives the value 'a' twice",
       [](Finding& f) {
         f.values = {{"a", 1.0, ""}, {"b", 1.0, ""}, {"a", 2.0, ""}};
       }},
      {"has the clause 'EN 2', which its declaration does not name", [](Finding& f) { f.clause = "EN 2"; }},
      {"has the unit 'GBP', which its declaration does not name", [](Finding& f) { f.unit = "GBP"; }}};
  for (const auto& [breach, edit] : edits) {
    Finding finding = passed(1.0, Relation::at_most, 2.0);
    edit(finding);
    CHECK(breach_of_one(finding) == "finding 'trial.bending' " + breach);
  }
  std::vector<CheckDeclaration> priced = declared();
  priced[0].units = {"currency"};
  Finding cost = passed(1.0, Relation::at_most, 2.0);
  const auto in_unit = [&](const char* unit) {
    cost.unit = unit;
    return contract_breach({{cost}, {}}, priced, "panel").empty();
  };
  CHECK(in_unit("GBP"));
  CHECK(in_unit(""));
  for (const char* none : {"GB", "GBPX", "Gbp", "G1P"}) CHECK_FALSE(in_unit(none));
  priced[0].units = {"GBP"};
  priced[0].kind = CheckKind::figure;
  cost.unit = "GBP";
  CHECK(contract_breach({{cost}, {}}, priced, "panel") ==
        "finding 'trial.bending' is 'pass' but is declared as a figure, which is not judged");
  cost.verdict = Verdict::information;
  CHECK(contract_breach({{cost}, {}}, priced, "panel").empty());
}

TEST_CASE("each declared check of the scope stands once, as a finding or with the reason why it does not apply") {
  const Finding finding = passed(1.0, Relation::at_most, 2.0);
  const auto said = [&](const CheckOutcome& outcome, const char* panel = "panel") {
    return contract_breach(outcome, declared(), panel);
  };
  CHECK(said({{}, {}}) ==
        "declared check 'trial.bending' gives neither a finding nor the reason why it does not apply");
  CHECK(said({{}, {}}, "").empty());
  CHECK(said({{finding, finding}, {}}) == "finding 'trial.bending' stands twice");
  CHECK(said({{finding}, {{"trial.bending", "why"}}}) == "check 'trial.bending' stands twice");
  CHECK(said({{}, {{"trial.bending", "why"}}}).empty());
  CHECK(said({{}, {{"trial.bending", ""}}}) == "check 'trial.bending' does not apply, without a reason");
  CHECK(said({{}, {{"trial.bending", "b\xF6se"}}}) ==
        "check 'trial.bending' does not apply for a reason that is not UTF-8");
  CHECK(said({{}, {{"trial.shear", "why"}}}) == "check 'trial.shear' is not declared for panels");
  CHECK(said({{}, {{"trial.bending", "why"}}}, "") == "check 'trial.bending' is not declared for the project");
  CHECK(said({{finding}, {}}, "") == "finding 'trial.bending' is not declared for the project");
}

TEST_CASE("a declaration has an id of its plugin, words, and each role once") {
  CheckDeclaration sound;
  sound.id = "trial.bending_2";
  sound.title = "Bending";
  sound.sentence = "It bends.";
  sound.clause = kClause;
  const auto said = [&](const std::function<void(CheckDeclaration&)>& edit) {
    CheckDeclaration check = sound;
    edit(check);
    const std::string breach = declaration_breach({check}, "trial");
    return breach.empty() ? breach : breach.substr(std::string("check '" + check.id + "' ").size());
  };
  CHECK(said([](CheckDeclaration&) {}).empty());
  CHECK(said([](CheckDeclaration& c) { c.id = "other.bending"; }) == "does not start with 'trial.'");
  CHECK(said([](CheckDeclaration& c) { c.id = "trial."; }) == "does not start with 'trial.'");
  for (const char* id : {"trial.2", "trial.Bend", "trial.a-b", "trial._a"}) {
    CHECK(said([&](CheckDeclaration& c) { c.id = id; }) ==
          "is not named in lower-case letters, digits and underscores");
  }
  CHECK(said([](CheckDeclaration& c) { c.id = "trial.run"; }) ==
        "has the name of the finding by which the program tells that a plugin failed");
  CHECK(said([](CheckDeclaration& c) { c.role = "none"; }) == "claims the role 'none', which there is not");
  CHECK(said([](CheckDeclaration& c) { c.title.clear(); }) == "has no title");
  CHECK(said([](CheckDeclaration& c) { c.sentence.clear(); }) == "has no sentence that says what is found");
  CHECK(said([](CheckDeclaration& c) { c.clause.clear(); }) == "names no clause");
  CHECK(said([](CheckDeclaration& c) { c.scope = CheckScope::panels_and_project; }) ==
        "has no title of the project's finding");
  CHECK(said([](CheckDeclaration& c) { c.project_title = "All"; }) ==
        "has a title of the project's finding but gives none");
  CHECK(declaration_breach({sound}, "Trial") == "the id 'Trial' is not of lower-case letters, digits and underscores");
  CHECK(declaration_breach({sound, sound}, "trial") == "check 'trial.bending_2' is declared twice");
  sound.role = role::kMass;
  CheckDeclaration second = sound;
  second.id = "trial.second";
  CHECK(declaration_breach({sound, second}, "trial") ==
        "check 'trial.second' claims the role '" + std::string(role::kMass) + "', which another check has already");
}
