// The words that pages, results.json and reasons share.
#include "core/api/support/words.h"

#include <catch2/catch.hpp>

#include "core/api/finding/finding.h"
#include "core/api/model/origin.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"

using namespace panel_dossier;

TEST_CASE("verdicts, bases and relations have their fixed words") {
  CHECK(to_string(Verdict::pass) == "pass");
  CHECK(to_string(Verdict::fail) == "fail");
  CHECK(to_string(Verdict::evidence_needed) == "evidence needed");
  CHECK(to_string(Verdict::not_assessed) == "not assessed");
  CHECK(to_string(Verdict::information) == "information");
  CHECK(to_string(Basis::calculation) == "calculation");
  CHECK(to_string(Basis::test_evidence) == "test evidence");
  CHECK(to_string(Basis::declared) == "declared");
  CHECK(to_string(Relation::none) == "none");
  CHECK(to_string(Relation::at_most) == "at most");
  CHECK(to_string(Relation::at_least) == "at least");
  CHECK(to_string(Relation::equals) == "equals");
}

TEST_CASE("an origin in the export names entity, property, owner and line") {
  Origin origin;
  origin.entity = "IfcMaterial";
  origin.property = "Pset_MaterialCommon.MassDensity";
  origin.global_id = "2O2Fr$t4X7Zf8NOew3FLOH";
  origin.line = 120;
  CHECK(describe(origin) == "IfcMaterial Pset_MaterialCommon.MassDensity, 2O2Fr$t4X7Zf8NOew3FLOH, line 120");
}

TEST_CASE("an origin that is not known says export") {
  CHECK(describe(Origin{}) == "export");
}

TEST_CASE("an origin in a data table names row and source") {
  Origin origin;
  origin.kind = OriginKind::data_table;
  origin.table = "limits.csv";
  origin.row = "x";
  origin.source = "EN 1, 2020, table 2";
  CHECK(describe(origin) == "limits.csv, row 'x' (EN 1, 2020, table 2)");
}

TEST_CASE("framing is timber members and nothing else") {
  for (const PartKind kind :
       {PartKind::stud, PartKind::post, PartKind::rail, PartKind::lintel, PartKind::blocking, PartKind::batten}) {
    CHECK(is_framing(kind));
  }
  for (const PartKind kind : {PartKind::sheet, PartKind::membrane, PartKind::insulation, PartKind::cladding,
                              PartKind::fastener, PartKind::other}) {
    CHECK_FALSE(is_framing(kind));
  }
}

TEST_CASE("evidence is found by its id") {
  Project project;
  project.evidence.resize(2);
  project.evidence[1].id = "TR-01";
  CHECK(find_evidence(project, "TR-01") == &project.evidence[1]);
  CHECK(find_evidence(project, "TR-02") == nullptr);
}

TEST_CASE("blanks, tabs and line ends are taken off both ends of a text, and nothing else") {
  CHECK(trimmed(" \t\r\na b\n") == "a b");
  CHECK(trimmed("  ab  ") == "ab");
  CHECK(trimmed("ab") == "ab");
  CHECK(trimmed(" \n ").empty());
  CHECK(trimmed("").empty());
}

TEST_CASE("a number is a whole text in the form of programs") {
  CHECK(parse_decimal(" -1.5e3\n") == -1500.0);
  CHECK(parse_decimal("0") == 0.0);
  for (const char* none : {"", "1,5", "1.5 m", "nan", "inf", "1e999", "+", "0x10"}) CHECK_FALSE(parse_decimal(none));
}

TEST_CASE("a number is printed with as many decimals as asked, or as few digits as tell it") {
  CHECK(fixed_text(2.0 / 3.0, 3) == "0.667");
  CHECK(fixed_text(-1.0, 0) == "-1");
  CHECK(shortest_text(0.1) == "0.1");
  CHECK(shortest_text(1e21) == "1e+21");
  CHECK(with_unit(0.25, "m") == "0.25 m");
  CHECK(with_unit(0.25, "") == "0.25");
}

TEST_CASE("a text is split at its separators and the pieces trimmed") {
  CHECK(split("a; b ;c", ';') == std::vector<std::string>{"a", "b", "c"});
  CHECK(split("a;;c", ';') == std::vector<std::string>{"a", "", "c"});
  CHECK(split("a;", ';') == std::vector<std::string>{"a"});
  CHECK(split("", ';').empty());
}

TEST_CASE("a comma-separated line is read as it is written") {
  using Fields = std::vector<std::string>;
  CHECK(csv_fields("a, b ,\"c,d\"") == Fields{"a", "b", "c,d"});
  CHECK(csv_fields("\"say \"\"no\"\"\",") == Fields{"say \"no\"", ""});
  CHECK(csv_fields("") == Fields{""});
  CHECK_FALSE(csv_fields("a,\"b"));
  CHECK(csv_line({"a", "b,c", "#d", ""}) == "a,\"b,c\",\"#d\",\n");
}

TEST_CASE("a symbol has a number only where there are several of its kind") {
  CHECK(numbered_symbol("A_o", 0, 1) == "A_o");
  CHECK(numbered_symbol("A_o", 0, 2) == "A_o,1");
  CHECK(numbered_symbol("A_o", 11, 12) == "A_o,12");
}

TEST_CASE("texts are joined with a separator between each two and none around them") {
  CHECK(joined({}).empty());
  CHECK(joined({"a"}) == "a");
  CHECK(joined({"a", "b", "c"}) == "a, b, c");
  CHECK(joined({"a", "", "c"}, "; ") == "a; ; c");
}

TEST_CASE("a pattern covers the whole text, in either case") {
  CHECK(matches_pattern("Oriented strand board osb/3", "oriented*board OSB/?"));
  CHECK(matches_pattern("OSB", "***OSB**"));
  CHECK(matches_pattern("Außenwand", "Au?enwand"));
  CHECK(matches_pattern("aXbXc", "a*X?"));
  CHECK(matches_pattern("EW-100", "e?-1*0"));
  CHECK(matches_pattern("", "*"));
  CHECK_FALSE(matches_pattern("OSB/3 15 mm", "*OSB/3"));
  CHECK_FALSE(matches_pattern("EW-100", "W-100"));
  CHECK_FALSE(matches_pattern("OSB", "OSB?"));
  CHECK_FALSE(matches_pattern("", "?"));
}

TEST_CASE("a pattern full of stars takes no time worth mention") {
  std::string pattern;
  for (int i = 0; i < 2000; ++i) pattern += "*a";
  std::string text(20'000, 'a');
  text += 'b';
  CHECK_FALSE(matches_pattern(text, pattern));
}

TEST_CASE("a field of a comma-separated line is quoted where it must be") {
  CHECK(csv_line({"a b", "1,5", "say \"no\"", "", "# x"}) == "a b,\"1,5\",\"say \"\"no\"\"\",,\"# x\"\n");
  CHECK(csv_fields("a b,\"1,5\",\"say \"\"no\"\"\",,\"# x\"") ==
        std::vector<std::string>{"a b", "1,5", "say \"no\"", "", "# x"});
  CHECK(csv_field("two\nlines") == "\"two\nlines\"");
}

TEST_CASE("letters of English are made small, from the first to the last, and nothing else") {
  CHECK(lower_case("ABCXYZabcxyz") == "abcxyzabcxyz");
  CHECK(lower_case("@[`{ 0Ä") == "@[`{ 0Ä");
}
