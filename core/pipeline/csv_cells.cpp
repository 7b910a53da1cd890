#include "core/pipeline/csv_cells.h"

#include <array>
#include <charconv>
#include <cmath>

namespace panel_dossier {

namespace {

bool starts_a_formula(std::string_view text) {
  return !text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos;
}

}  // namespace

std::string number_cell(double value) {
  if (!std::isfinite(value)) return {};
  std::array<char, 32> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return {buffer.data(), end};
}

std::string text_cell(std::string_view text) {
  std::string cell = starts_a_formula(text) ? "'" : "";
  cell += text;
  if (cell.find_first_of(",\"\r\n") == std::string::npos) return cell;
  std::string quoted = "\"";
  for (const char c : cell) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string value_cell(const Value& value) {
  if (const double* number = std::get_if<double>(&value)) return number_cell(*number);
  if (const std::string* text = std::get_if<std::string>(&value)) return text_cell(*text);
  return {};
}

void replace_all(std::string& text, std::string_view old, std::string_view with) {
  for (auto at = text.find(old); at != std::string::npos; at = text.find(old, at + with.size())) {
    text.replace(at, old.size(), with);
  }
}

void add_row(std::string& csv, const std::vector<std::string>& cells) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i != 0) csv += ',';
    csv += cells[i];
  }
  csv += "\r\n";
}

}  // namespace panel_dossier
