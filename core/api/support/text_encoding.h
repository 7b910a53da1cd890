// Whether the bytes of a file are text that the program reads, UTF-8, and text that is safe to show.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace panel_dossier {

struct EncodingFault {
  std::string message;                ///< `the file is not valid UTF-8 from this byte on`
  std::optional<std::size_t> offset;  ///< byte of the fault; none when the whole file is meant
};

/// What is wrong with the bytes: none at all, UTF-16, an XML declaration of another encoding, or no UTF-8 (RFC 3629).
/// None for non-empty UTF-8; a byte order mark is passed over.
std::optional<EncodingFault> encoding_fault(std::string_view bytes);

/// The text for a terminal, a log, XML or a cell, where a name out of an input must not forge a line or turn the
/// writing round: control characters, line separators, marks of writing direction and non-characters stand as
/// `<U+001B>`, bytes that are no UTF-8 as `<0xFF>`. Tabs stay.
std::string visible_text(std::string_view text);
/// As `visible_text`, for what is meant to have several lines: line feeds stay.
std::string visible_lines(std::string_view text);

}  // namespace panel_dossier
