#include "plugins/quantities/cutting/part_names.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

using namespace panel_dossier::quantities;

TEST_CASE("names are joined and runs of three or more shortened") {
  struct Names {
    const char* label;
    std::vector<std::string> names;
    const char* expected;
  };
  const Names names = GENERATE(Names{"none", {}, ""}, Names{"one", {"Stud 01"}, "Stud 01"},
                               Names{"two", {"Stud 01", "Stud 02"}, "Stud 01; Stud 02"},
                               Names{"run", {"Stud 01", "Stud 02", "Stud 03"}, "Stud 01 to 03"},
                               Names{"two runs", {"S1", "S2", "S3", "S5", "S6", "S7"}, "S1 to 3; S5 to 7"},
                               Names{"gap", {"Stud 01", "Stud 03", "Stud 05"}, "Stud 01; Stud 03; Stud 05"},
                               Names{"more digits", {"S8", "S9", "S10"}, "S8; S9; S10"},
                               Names{"other stem", {"A1", "B2", "C3"}, "A1; B2; C3"},
                               Names{"no number", {"head", "sole", "head"}, "head; sole; head"},
                               Names{"number alone", {"1", "2", "3"}, "1 to 3"},
                               Names{"number too long",
                                     {"99999999999999999999998", "99999999999999999999999"},
                                     "99999999999999999999998; 99999999999999999999999"});
  INFO(names.label);
  CHECK(part_names(names.names) == names.expected);
}
