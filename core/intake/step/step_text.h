// The tokens of a STEP file (ISO 10303-21, clause 6.3): how to get past blanks, strings and whole values.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace panel_dossier {

/// Lists stand within lists at most this deep; the standard's schemas need 3.
inline constexpr int kMaxStepListDepth = 16;

inline bool is_step_digit(char c) {
  return c >= '0' && c <= '9';
}

/// A character of a keyword. Small letters are met in the wild.
inline bool is_step_letter(char c) {
  return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '_';
}

/// The first character that is neither white space nor within a comment; `end` when there is none, also when a comment
/// is not closed.
const char* after_step_blanks(const char* at, const char* end);

/// Just behind the string whose first apostrophe stands at `at`; `end` + 1 is never returned: null when it is not
/// closed.
const char* after_step_string(const char* at, const char* end);

/// Just behind the keyword or number of an instance at `at`.
const char* after_step_word(const char* at, const char* end);

/// Just behind the list whose opening bracket stands at `at`; `end` when it is not closed.
const char* after_step_list(const char* at, const char* end);

/// Just behind the value at `at` (after blanks), whose syntax was checked before: the comma or bracket that ends it, or
/// `end`.
const char* after_step_value(const char* at, const char* end);

}  // namespace panel_dossier
