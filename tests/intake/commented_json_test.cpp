// Settings with comments and with a comma too many, as people keep them.
#include "core/intake/settings/commented_json.h"

#include <catch2/catch.hpp>

#include "core/intake/settings/settings_reader.h"

namespace panel_dossier {
namespace {

TEST_CASE("Comments and last commas become blanks, and nothing moves", "[intake]") {
  CHECK(plain_json("{ // width\n  \"a\": 1, /* of\nall */ }") == "{         \n  \"a\": 1       \n       }");
  CHECK(plain_json("[1, 2, // last\n]") == "[1, 2         \n]");
  CHECK(plain_json("[[1,],]") == "[[1 ] ]");
}

TEST_CASE("What looks like a comment inside a text is text", "[intake]") {
  const std::string text = R"({"a": "http://x /* y */ ,]", "b": "q\" // r"})";
  CHECK(plain_json(text) == text);
}

TEST_CASE("A comma that is no last one stays where it is", "[intake]") {
  CHECK(plain_json("[1,,]") == "[1,,]");
  CHECK(plain_json("{\"a\": ,}") == "{\"a\": ,}");
  CHECK(plain_json("{,\"a\": 1}") == "{,\"a\": 1}");
  CHECK(read_settings("{\"a\": [1,,]}", "s.json").diagnostics.size() == 1);
}

TEST_CASE("A comment that is never closed takes the rest, which is then reported", "[intake]") {
  CHECK(plain_json("{\"a\": 1} /* x") == "{\"a\": 1}     ");
  CHECK(read_settings("{\"a\": 1, /* x }", "s.json").diagnostics.size() == 1);
}

TEST_CASE("A slip behind comments is reported where it stands", "[intake]") {
  const SettingsResult result = read_settings("// first\n{ \"a\": 1, // here\n  \"b\" 2\n}", "s.json");
  REQUIRE(result.diagnostics.size() == 1);
  CHECK(result.diagnostics[0].line == 3);
  CHECK(result.diagnostics[0].column == 7);
}

}  // namespace
}  // namespace panel_dossier
