#include "core/api/support/text_encoding.h"

#include <catch2/catch.hpp>
#include <optional>
#include <string>

#include "core/api/support/line_table.h"

using namespace panel_dossier;

TEST_CASE("UTF-8 is text, with or without a byte order mark, and whatever case the declaration has") {
  for (const char* text :
       {"a", "caf\xC3\xA9", "\xEF\xBB\xBF<a/>", "<?xml version='1.0' encoding='utf-8'?><a/>",
        "<?xml version='1.0' encoding=\"US-ASCII\"?><a/>", "\xF0\x9F\x8F\xA0",
        // The first and last of each length (RFC 3629 section 4).
        "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xE1\x80\x80", "\xED\x9F\xBF", "\xEE\x80\x80", "\xEF\xBF\xBD",
        "\xF0\x90\x80\x80", "\xF1\x80\x80\x80", "\xF3\xBF\xBF\xBF", "\xF4\x8F\xBF\xBF"}) {
    INFO(text);
    CHECK_FALSE(encoding_fault(text));
  }
}

TEST_CASE("what could forge a line or turn the writing is made visible") {
  CHECK(visible_text("S0-01, Außenwand 3 m² – façade 🏠\t2") == "S0-01, Außenwand 3 m² – façade 🏠\t2");
  CHECK(visible_text("a\nerror: b\r") == "a<U+000A>error: b<U+000D>");
  CHECK(visible_text("\x1B[2Ja\x7F") == "<U+001B>[2Ja<U+007F>");
  CHECK(visible_text(std::string("a\0b", 3)) == "a<U+0000>b");
  CHECK(visible_text("\u009B\u2028\u202E\u2066\u200F\u061C") == "<U+009B><U+2028><U+202E><U+2066><U+200F><U+061C>");
  CHECK(visible_text("\uFEFF\uFFFE\U0001FFFF\uFDD0\uFFFD") == "<U+FEFF><U+FFFE><U+1FFFF><U+FDD0>\uFFFD");
  CHECK(visible_text("a\xE4z\xE2\x82") == "a<0xE4>z<0xE2><0x82>");
  CHECK(visible_lines("a\n\x1B\r") == "a\n<U+001B><U+000D>");
  CHECK(visible_text("").empty());
}

TEST_CASE("bytes that are no UTF-8 are named with their place") {
  struct Case {
    std::string bytes;
    const char* message;
    std::optional<std::size_t> offset;
  };
  const Case cases[] = {
      {"", "the file is empty", std::nullopt},
      {" \n\t", "the file is empty", std::nullopt},
      {"\xFF\xFE<", "the file is not in UTF-8 (it looks like UTF-16)", 0},
      {std::string("<\0a\0", 4), "the file is not in UTF-8 (it looks like UTF-16)", 0},
      {"<?xml version='1.0' encoding='ISO-8859-1'?>", "the file declares the encoding 'ISO-8859-1'", 0},
      {"caf\xE9", "the file is not valid UTF-8 from this byte on", 3},
      {"\xEF\xBB\xBF\xE9", "the file is not valid UTF-8 from this byte on", 3},
      {"a\xC0\xAF", "the file is not valid UTF-8 from this byte on", 1},  // an overlong slash
      {"a\xC1\xBF", "the file is not valid UTF-8 from this byte on", 1},
      {"a\xE0\x9F\xBF", "the file is not valid UTF-8 from this byte on", 1},  // overlong, as the next
      {"a\xF0\x8F\xBF\xBF", "the file is not valid UTF-8 from this byte on", 1},
      {"a\xF5\x80\x80\x80", "the file is not valid UTF-8 from this byte on", 1},
      {"a\x80", "the file is not valid UTF-8 from this byte on", 1},
      {"a\xE1\x80(", "the file is not valid UTF-8 from this byte on", 1},
      {"a\xF1\x80(\x80", "the file is not valid UTF-8 from this byte on", 1},
      {"a\xF1\x80\x80(", "the file is not valid UTF-8 from this byte on", 1},
      {"a\xED\xA0\x80", "the file is not valid UTF-8 from this byte on", 1},  // half of a surrogate pair
      {"a\xF4\x90\x80\x80", "the file is not valid UTF-8 from this byte on", 1},
      {"ab\xE2\x82", "the file is not valid UTF-8 from this byte on", 2},
  };
  for (const Case& c : cases) {
    INFO(c.bytes);
    const auto fault = encoding_fault(c.bytes);
    REQUIRE(fault);
    CHECK(fault->message == c.message);
    CHECK(fault->offset == c.offset);
  }
}

TEST_CASE("a byte stands in its line and column") {
  const LineTable lines("ab\n\nc\n");
  CHECK(lines.at(0).line == 1);
  CHECK(lines.at(0).column == 1);
  CHECK(lines.at(2).line == 1);
  CHECK(lines.at(3).line == 2);
  CHECK(lines.at(4).line == 3);
  CHECK(lines.at(4).column == 1);
  CHECK(lines.at(99).line == 4);
  CHECK(LineTable().at(5).line == 1);
}
