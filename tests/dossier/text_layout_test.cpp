#include "core/dossier/layout/text_layout.h"

#include <catch2/catch.hpp>

using namespace panel_dossier;

namespace {

// Every character is one wide, whatever its bytes.
double characters(std::string_view text) {
  double count = 0.0;
  for (std::size_t at = 0; at < text.size(); ++count) next_code_point(text, at);
  return count;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line;
  return text;
}

}  // namespace

TEST_CASE("text breaks at spaces and fills each line") {
  CHECK(wrap("one two three four", 9, characters) == std::vector<std::string>{"one two", "three", "four"});
}

TEST_CASE("line feeds end lines and empty text is one empty line") {
  CHECK(wrap("a\nb", 10, characters) == std::vector<std::string>{"a", "b"});
  CHECK(wrap("", 10, characters) == std::vector<std::string>{""});
}

TEST_CASE("a word wider than a line breaks behind its punctuation first") {
  CHECK(wrap("Pset_Wall.FireRating", 12, characters) == std::vector<std::string>{"Pset_Wall.", "FireRating"});
}

TEST_CASE("a number is not parted at its decimal point") {
  CHECK(wrap("R=10.25", 5, characters) == std::vector<std::string>{"R=10.", "25"});
  CHECK(wrap("a/b10.25", 6, characters) == std::vector<std::string>{"a/", "b10.25"});
}

TEST_CASE("a word without punctuation breaks between characters and loses none") {
  const std::string word(200, 'x');
  const auto lines = wrap(word, 30, characters);
  CHECK(lines.size() == 7);
  CHECK(joined(lines) == word);
}

TEST_CASE("breaking never parts the bytes of one character") {
  const auto lines = wrap("äöüäöü", 2, characters);
  CHECK(lines == std::vector<std::string>{"äö", "üä", "öü"});
}

TEST_CASE("a line narrower than one character still takes one character a line") {
  CHECK(wrap("abc", 0.5, characters) == std::vector<std::string>{"a", "b", "c"});
}

TEST_CASE("shortened text says so with an ellipsis and fits") {
  CHECK(shorten("short", 5, characters) == "short");
  CHECK(shorten("too long", 5, characters) == "too …");
  CHECK(shorten("any", 0.5, characters) == "…");
}

TEST_CASE("the widest word is the widest piece that only breaks between characters") {
  CHECK(widest_word("", characters) == 0.0);
  CHECK(widest_word("one three\nfour", characters) == 5.0);
  CHECK(widest_word("Pset_Wall.FireRating", characters) == 10.0);
}

TEST_CASE("broken UTF-8 becomes the replacement character, byte by byte") {
  std::size_t at = 0;
  const std::string overlong = "\xC0\xAF";
  CHECK(next_code_point(overlong, at) == kReplacementCharacter);
  CHECK(at == 1);
  at = 0;
  CHECK(next_code_point("\xED\xA0\x80", at) == kReplacementCharacter);  // a lone surrogate
  at = 0;
  CHECK(next_code_point("\xE2\x82", at) == kReplacementCharacter);  // cut off
}

TEST_CASE("code points survive the way through UTF-8") {
  for (const char32_t code : {U'a', U'é', U'€', U'\U0001F600'}) {
    std::string text;
    append_utf8(text, code);
    std::size_t at = 0;
    CHECK(next_code_point(text, at) == code);
    CHECK(at == text.size());
  }
}
