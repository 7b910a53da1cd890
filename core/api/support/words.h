// Words, phrases and numbers in text: put together for sentences and cells, taken apart from files.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier {

/// The texts in their order with `separator` between each two; empty for none.
std::string joined(const std::vector<std::string>& texts, std::string_view separator = ", ");

/// The symbol of one of `count` like things in a calculation: `A_o` when it is the only one, `A_o,2` for the second of
/// several (`index` 1).
std::string numbered_symbol(std::string_view symbol, std::size_t index, std::size_t count);

/// With small letters for the Latin capitals without marks; all other characters as they are.
std::string lower_case(std::string_view text);

/// Without the white space at both ends.
std::string_view trimmed(std::string_view text);

/// A finite number with a decimal point that fills the text, white space around it aside; none for anything else.
std::optional<double> parse_decimal(std::string_view text);

/// `value` with `decimals` digits after the point, for example `0.263`, the same in every locale; for reasons and
/// notes, never for results.
std::string fixed_text(double value, int decimals);

/// The shortest decimal that reads back as the same number: `0.0034`, `1e+05`.
std::string shortest_text(double value);

/// `0.0034 W/(m·K)`; the number alone where there is no unit.
std::string with_unit(double value, std::string_view unit);

/// True where the pattern stands for the whole text: `*` for any characters, `?` for a single one; in either case of
/// the Latin letters without marks.
bool matches_pattern(std::string_view text, std::string_view pattern);

/// The pieces between the separators, without white space around them; none of an empty text.
std::vector<std::string> split(std::string_view text, char separator);

/// The fields of one line of a comma-separated file (RFC 4180 without line breaks inside quotes), without white space
/// around them; none when a quote is not closed.
std::optional<std::vector<std::string>> csv_fields(std::string_view line);

/// The text as one field of a comma-separated file (RFC 4180), in quotes where it needs them; also where it begins as a
/// comment does.
std::string csv_field(std::string_view text);

/// The texts as one line of such a file, with a line feed behind.
std::string csv_line(const std::vector<std::string>& texts);

}  // namespace panel_dossier
