// What a check says of itself, and how it is printed.
#include "core/api/finding/check_declaration.h"

#include <catch2/catch.hpp>

using namespace panel_dossier;

namespace {

CheckDeclaration full_declaration() {
  CheckDeclaration check;
  check.id = "trial.load";
  check.title = "Load";
  check.sentence = "The load is at most its limit.";
  check.clause = "EN 1990, 6.4";
  check.other_clauses = {"EN 1991-1-1, 3.2"};
  check.units = {"kN", "kN/m"};
  check.kind = CheckKind::limit;
  check.scope = CheckScope::panels_and_project;
  check.inputs =
      with_records(with_model({property("Pset_A.Load"), optional_property("Pset_A.Share"), setting("trial.limit"),
                               optional_setting("trial.factor"), data_table("loads.csv")}),
                   {"inspections"});
  check.limits = {"Wind.", "Snow."};
  check.role = "load";
  check.for_workshop = true;
  return check;
}

}  // namespace

TEST_CASE("the page of a check says each thing on its line, and nothing of what there is not") {
  CHECK(check_page(full_declaration()) ==
        "### `trial.load` Load\n\nThe load is at most its limit.\n\n"
        "- Of: each panel and the project\n- Kind: limit\n- Unit: kN or kN/m\n"
        "- Clause: EN 1990, 6.4; or EN 1991-1-1, 3.2\n"
        "- Properties: `Pset_A.Load`, `Pset_A.Share` (optional)\n"
        "- Settings: `trial.limit`, `trial.factor` (optional)\n- Tables: `loads.csv`\n"
        "- Model: `layers`, `parts`, `inspections` (optional)\n- Role: load\n"
        "- Read by: the practice's own people, in workshop.pdf\n- Does not see: Wind. Snow.\n");
  CheckDeclaration plain;
  plain.id = "trial.class";
  plain.title = "Class";
  plain.sentence = "The class.";
  plain.clause = "EN 1";
  plain.kind = CheckKind::classification;
  CHECK(check_page(plain) ==
        "### `trial.class` Class\n\nThe class.\n\n- Of: each panel\n- Kind: classification\n- Clause: EN 1\n");
  CHECK(check_pages({plain, plain}) == check_page(plain) + "\n" + check_page(plain));
  CHECK(check_pages({}).empty());
}

TEST_CASE("kinds and scopes of checks have their words") {
  CHECK(to_string(CheckKind::figure) == "figure");
  CHECK(to_string(CheckKind::evidence) == "evidence");
  CHECK(to_string(CheckScope::project) == "the project");
}

TEST_CASE("a declared name stands for itself and, with stars, for entries of lists and what lies below") {
  CHECK(names_input("a.b", "a.b"));
  CHECK_FALSE(names_input("a.b", "a.c"));
  CHECK_FALSE(names_input("a.b", "a"));
  CHECK_FALSE(names_input("a", "a.b"));
  CHECK(names_input("rates.*.unit", "rates.12.unit"));
  CHECK_FALSE(names_input("rates.*.unit", "rates.12.rate"));
  CHECK_FALSE(names_input("rates.*.unit", "rates.12"));
  CHECK(names_input("rates.*", "rates.12.rate.value"));
  CHECK_FALSE(names_input("rates.*", "rates"));
}
