#include "core/cli/scaffold/scaffold_text.h"

#include <catch2/catch.hpp>

using namespace panel_dossier;
using Catch::Matchers::Contains;

TEST_CASE("An id has two plain names, neither with a meaning of its own") {
  for (const char* id : {"workshop.face_area", "a.b", "w2.x9_y"}) CHECK(id_fault(id).empty());
  for (const char* id : {"workshop", ".area", "workshop.", "Workshop.area", "workshop.face-area", "2w.area", "_w.area",
                         "w_.area", "w.a__b", "workshop.face.area", "workshop.f\xC3\xA4"}) {
    INFO(id);
    CHECK_THAT(id_fault(id), Contains("is no id of a check"));
  }
  CHECK_THAT(id_fault("class.area"), Contains("give another discipline"));
  CHECK_THAT(id_fault("workshop.math"), Contains("give the check another name"));
}

TEST_CASE("Names become words of code and of pages") {
  CHECK(words_in_capitals("face_area_2") == "FaceArea2");
  const auto texts = placeholders({"site_work", "face_area"}, "plugins/site_work/");
  CHECK(filled("@PLUGIN_TITLE@, @CHECK_TITLE@, @PLUGIN_WORDS@@CHECK_WORDS@ @INCLUDE@@CHECK@.h @PLUGIN@", texts) ==
        "Site work, Face area, SiteWorkFaceArea plugins/site_work/face_area.h site_work");
  CHECK(filled("@A@@A@", {{"@A@", "@A@x"}}) == "@A@x@A@x");
}

TEST_CASE("A header is put into the last block of includes in its order, or behind the source's own") {
  CHECK(with_include("#include \"a.h\"\n\n#include <vector>\n\n#include \"b.h\"\n#include \"d.h\"\ncode\n", "c.h") ==
        "#include \"a.h\"\n\n#include <vector>\n\n#include \"b.h\"\n#include \"c.h\"\n#include \"d.h\"\ncode\n");
  CHECK(with_include("x\n#include \"b.h\"\n", "a.h") == "x\n#include \"a.h\"\n#include \"b.h\"\n");
  CHECK(with_include("x\n#include \"b.h\"\n", "c.h") == "x\n#include \"b.h\"\n#include \"c.h\"\n");
  CHECK(with_include("#include \"own.h\"\ncode\n", "a.h") == "#include \"own.h\"\n\n#include \"a.h\"\ncode\n");
  CHECK_THROWS_WITH(with_include("#include <vector>\n", "a.h"), Contains("has no '#include"));
}

TEST_CASE("A check is entered above both markers, or not at all") {
  const std::string marker(kScaffoldMarker);
  const std::string declared = "  " + marker + "k@Check@Check,\n";
  const std::string called = "  " + marker + "check_@check@(panel);\n";
  CHECK(with_check_entered("a\n" + declared + called, "face_area") ==
        "a\n  kFaceAreaCheck,\n" + declared + "  check_face_area(panel);\n" + called);
  CHECK_THROWS_WITH(with_check_entered(declared, "x"), Contains("where checks are called"));
  CHECK_THROWS_WITH(with_check_entered(called, "x"), Contains("in its list of declarations"));
}

TEST_CASE("A setting is put behind the properties of the outermost object, whatever stands in texts and lists") {
  const std::string schema =
      "{\n  \"title\": \"a } brace and a \\\" quote\",\n  \"list\": [1, {\"properties\": {}}],\n"
      "  \"properties\": {\n    \"old\": { \"properties\": { \"deep\": {} } }\n  },\n  \"more\": {}\n}\n";
  const std::string entered = with_setting(schema, "\"new\": {}");
  CHECK_THAT(entered, Contains("{ \"deep\": {} } },\n    \"new\": {}\n  },\n  \"more\""));
  CHECK_THAT(with_setting("{ \"properties\": {} }", "\"new\": {}"),
             Contains("\"properties\": {\n    \"new\": {}\n  }"));
  CHECK_THROWS_WITH(with_setting(entered, "\"new\": {}"), Contains("has the setting \"new\" already"));
  CHECK_THROWS_WITH(with_setting("{ \"properties\": [] }", "\"new\": {}"), Contains("has no object 'properties'"));
  CHECK_THROWS_WITH(with_setting("{ \"other\": {} }", "\"new\": {}"), Contains("has no object 'properties'"));
}

TEST_CASE("A page goes behind those between the marks, and nowhere without them") {
  CHECK(with_page("a\n<!-- checks -->\n<!-- /checks -->\nb\n", "page\n") ==
        "a\n<!-- checks -->\npage\n<!-- /checks -->\nb\n");
  CHECK(with_page("<!-- checks -->\none\n<!-- /checks -->\n", "two\n") ==
        "<!-- checks -->\none\n\ntwo\n<!-- /checks -->\n");
  for (const char* text : {"<!-- checks -->\n", "<!-- /checks -->\n", "<!-- /checks -->\n<!-- checks -->\n"}) {
    CHECK(with_page(text, "page\n") == text);
  }
}
