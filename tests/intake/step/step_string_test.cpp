// Characters in strings of a STEP file: each directive, and what is met in the wild.
#include "core/intake/step/step_string.h"

#include <catch2/catch.hpp>

#include "core/intake/step/step_text.h"

namespace panel_dossier {
namespace {

struct StringCase {
  const char* label;
  const char* written;
  const char* text;
  StepBytes bytes = StepBytes::ascii;
  std::uint32_t directives = 0;
  std::uint32_t characters = 0;
  std::uint32_t line_breaks = 0;
};

const StringCase kStrings[] = {
    {"empty", "''", ""},
    {"plain", "'Stud 1'", "Stud 1"},
    {"doubled apostrophe", "'the maker''s mark'", "the maker's mark"},
    {"doubled backslash", R"('C:\\models')", R"(C:\models)"},
    {"one byte of ISO 8859-1", R"('D\X\E4mmung')", "Dämmung"},
    {"line feed by its code", R"('one\X\0Atwo')", "one\ntwo"},
    {"two-byte units", R"('\X2\00FC20AC\X0\')", "ü€"},
    {"four-byte units", R"('\X4\0001F44D\X0\')", "\xF0\x9F\x91\x8D"},
    {"a pair of surrogates", R"('\X2\D83DDC4D\X0\')", "\xF0\x9F\x91\x8D"},
    {"half a pair", R"('\X2\D83D\X0\')", "\xEF\xBF\xBD", StepBytes::ascii, 0, 1},
    {"no character at all", R"('\X\00')", "\xEF\xBF\xBD", StepBytes::ascii, 0, 1},
    {"shifted by 128", R"('\S\Dach')", "Äach"},
    {"an apostrophe as what is shifted", R"('\S\'')", "§"},
    {"another page of ISO 8859", R"('\PE\\S\t')", "є"},
    {"pages back and forth", R"('\PE\\S\t\PA\\S\D')", "єÄ"},
    {"print directives", R"('one\N\two\F\')", "onetwo"},
    {"path with single backslashes", R"('C:\Temp')", R"(C:\Temp)", StepBytes::ascii, 1},
    {"units that are not closed", R"('\X2\00FC')", R"(\X2\00FC)", StepBytes::ascii, 2},
    {"digits that are none", R"('\X\G1')", R"(\X\G1)", StepBytes::ascii, 2},
    {"UTF-8 in the file", "'Dämmung'", "Dämmung", StepBytes::utf8},
    {"ISO 8859-1 in the file", "'D\xE4mmung'", "Dämmung", StepBytes::latin1},
    {"line break inside", "'one\ntwo'", "onetwo", StepBytes::ascii, 0, 0, 1},
};

TEST_CASE("strings are decoded as the standard writes them", "[intake]") {
  for (const StringCase& c : kStrings) {
    DYNAMIC_SECTION(c.label) {
      StepStringFaults faults;
      CHECK(decode_step_string(c.written, c.bytes, faults) == c.text);
      CHECK(faults.directives == c.directives);
      CHECK(faults.characters == c.characters);
      CHECK(faults.line_breaks == c.line_breaks);
    }
  }
}

TEST_CASE("the end of a string is found behind doubled and shifted apostrophes", "[intake]") {
  const auto length = [](const std::string& text) {
    const char* end = after_step_string(text.data(), text.data() + text.size());
    return end == nullptr ? -1 : end - text.data();
  };
  CHECK(length("'abc',$") == 5);
  CHECK(length("'a''b',$") == 6);
  CHECK(length(R"('\S\'',$)") == 6);
  // A doubled backslash before the S is text, so the apostrophe ends the string.
  CHECK(length(R"('\\S\',$)") == 6);
  CHECK(length(R"('\\\S\'',$)") == 8);
  CHECK(length("'abc") == -1);
  CHECK(length("'") == -1);
}

TEST_CASE("the bytes of a file tell their encoding", "[intake]") {
  CHECK(step_bytes_of("abc") == StepBytes::ascii);
  CHECK(step_bytes_of("Dämmung") == StepBytes::utf8);
  CHECK(step_bytes_of("D\xE4mmung") == StepBytes::latin1);
}

}  // namespace
}  // namespace panel_dossier
