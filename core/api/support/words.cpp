#include "core/api/support/words.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>

namespace panel_dossier {

std::string joined(const std::vector<std::string>& texts, std::string_view separator) {
  std::string all;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (i > 0) all += separator;
    all += texts[i];
  }
  return all;
}

std::string numbered_symbol(std::string_view symbol, std::size_t index, std::size_t count) {
  std::string numbered(symbol);
  if (count > 1) numbered += "," + std::to_string(index + 1);
  return numbered;
}

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lower;
}

std::string_view trimmed(std::string_view text) {
  // By hand, for the intake asks this of every value of an export, and hardly any has something to take off.
  const auto is_space = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; };
  std::size_t first = 0;
  while (first < text.size() && is_space(text[first])) ++first;
  std::size_t last = text.size();
  while (last > first && is_space(text[last - 1])) --last;
  return text.substr(first, last - first);
}

std::optional<double> parse_decimal(std::string_view text) {
  text = trimmed(text);
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::string fixed_text(double value, int decimals) {
  std::array<char, 400> buffer{};
  const auto [end, error] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, decimals);
  return error == std::errc{} ? std::string(buffer.data(), end) : std::string("?");
}

std::string shortest_text(double value) {
  std::array<char, 32> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value).ptr;
  return {digits.data(), end};
}

std::string with_unit(double value, std::string_view unit) {
  std::string text = shortest_text(value);
  if (!unit.empty()) text.append(" ").append(unit);
  return text;
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> pieces;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(separator), text.size());
    pieces.emplace_back(trimmed(text.substr(0, end)));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return pieces;
}

std::optional<std::vector<std::string>> csv_fields(std::string_view line) {
  std::vector<std::string> fields(1);
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const bool doubled = quoted && line.substr(i, 2) == "\"\"";
    if (line[i] == '"' && !doubled) {
      quoted = !quoted;
    } else if (line[i] == ',' && !quoted) {
      fields.emplace_back();
    } else {
      fields.back() += line[i];
      if (doubled) ++i;
    }
  }
  if (quoted) return std::nullopt;
  for (std::string& field : fields) field = std::string(trimmed(field));
  return fields;
}

bool matches_pattern(std::string_view text, std::string_view pattern) {
  const std::string given = lower_case(text);
  const std::string wanted = lower_case(pattern);
  std::size_t t = 0;
  std::size_t p = 0;
  // Where the last `*` stood, and what it was last taken to stand for: only that one needs to be tried again.
  std::size_t star = std::string::npos;
  std::size_t resume = 0;
  while (t < given.size()) {
    if (p < wanted.size() && wanted[p] == '*') {
      star = p++;
      resume = t;
    } else if (p < wanted.size() && (wanted[p] == '?' || wanted[p] == given[t])) {
      const bool is_any = wanted[p] == '?';
      ++p;
      ++t;
      // A character beyond ASCII is several bytes, of which all but the first begin with the bits 10.
      while (is_any && t < given.size() && (static_cast<unsigned char>(given[t]) & 0xC0U) == 0x80U) ++t;
    } else if (star != std::string::npos) {
      p = star + 1;
      t = ++resume;
    } else {
      return false;
    }
  }
  while (p < wanted.size() && wanted[p] == '*') ++p;
  return p == wanted.size();
}

std::string csv_field(std::string_view text) {
  if (text.find_first_of(",\"\r\n") == std::string_view::npos && !text.starts_with('#')) return std::string(text);
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string csv_line(const std::vector<std::string>& texts) {
  std::string line;
  for (const std::string& text : texts) {
    if (&text != &texts.front()) line += ',';
    line += csv_field(text);
  }
  return line + '\n';
}

}  // namespace panel_dossier
