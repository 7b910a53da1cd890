// Strings of a STEP file -> UTF-8 (ISO 10303-21, clause 6.4.3).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace panel_dossier {

/// What the bytes above 126 in a file are. The older editions allow none, the third UTF-8; in the wild all occur.
enum class StepBytes : std::uint8_t { ascii, utf8, latin1 };

StepBytes step_bytes_of(std::string_view text);

/// How often a string was not written as the standard has it; what it most likely means was taken.
struct StepStringFaults {
  std::uint32_t directives = 0;   ///< a backslash that begins no directive: kept as text
  std::uint32_t characters = 0;   ///< a code that is no character of a text: U+FFFD stands in its place
  std::uint32_t line_breaks = 0;  ///< a line break inside the string: left out
};

/// `quoted` is the string with its apostrophes.
std::string decode_step_string(std::string_view quoted, StepBytes bytes, StepStringFaults& faults);

/// True when the text between the apostrophes is the text itself.
bool is_plain_step_string(std::string_view quoted);

}  // namespace panel_dossier
