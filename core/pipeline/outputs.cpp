#include "core/pipeline/outputs.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>
#include <string_view>
#include <utility>

#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

std::string text_member(const nlohmann::json& object, const char* name, const std::string& where) {
  const auto found = object.find(name);
  if (found == object.end() || !found->is_string()) {
    throw std::runtime_error(where + " has no text '" + name + "'");
  }
  return found->get<std::string>();
}

const nlohmann::json& list_member(const nlohmann::json& object, const char* name, const std::string& where) {
  const auto found = object.is_object() ? object.find(name) : object.end();
  if (found == object.end() || !found->is_array() || found->empty()) {
    throw std::runtime_error(where + " has no list '" + name + "'");
  }
  return *found;
}

/// False where it is absent.
bool logical_member(const nlohmann::json& object, const char* name, const std::string& where) {
  const auto found = object.find(name);
  if (found == object.end()) return false;
  if (!found->is_boolean()) throw std::runtime_error(where + " has a '" + name + "' that is neither true nor false");
  return found->get<bool>();
}

/// A plain name, so that an output stays in its folder and beside the program's own files.
bool is_csv_name(const std::string& name) {
  constexpr std::string_view kExtension = ".csv";
  if (!name.ends_with(kExtension) || name.size() == kExtension.size()) return false;
  return std::all_of(name.begin(), name.end() - static_cast<std::ptrdiff_t>(kExtension.size()),
                     [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_' || c == '-'; });
}

bool is_column_name(const std::string& name) {
  const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  return !name.empty() && is_letter(name.front()) && std::all_of(name.begin(), name.end(), [&](char c) {
    return is_letter(c) || (c >= '0' && c <= '9') || c == '_';
  });
}

OutputColumn column_from_json(const nlohmann::json& item, const std::string& where) {
  if (!item.is_object()) throw std::runtime_error(where + " has a column that is no object");
  OutputColumn column{text_member(item, "name", where + ": a column"), {}, {}, false};
  if (!is_column_name(column.name)) {
    throw std::runtime_error(where + " has the column '" + column.name + "', which is not one word of ASCII letters, " +
                             "digits and underscores");
  }
  const std::string named = where + ": column '" + column.name + "'";
  if (item.contains("unit")) column.unit = text_member(item, "unit", named);
  column.meaning = text_member(item, "meaning", named);
  column.for_workshop = logical_member(item, "for_workshop", named);
  return column;
}

OutputDeclaration output_from_json(const nlohmann::json& item) {
  if (!item.is_object()) throw std::runtime_error("an output is no object");
  OutputDeclaration output;
  output.file = text_member(item, "file", "an output");
  const std::string where = "output '" + output.file + "'";
  if (!is_csv_name(output.file)) {
    throw std::runtime_error(where + " is not named in lower-case letters, digits, '_' and '-' before '.csv'");
  }
  output.title = text_member(item, "title", where);
  output.description = text_member(item, "description", where);
  output.for_workshop = logical_member(item, "for_workshop", where);
  std::set<std::string> names;
  for (const nlohmann::json& column : list_member(item, "columns", where)) {
    output.columns.push_back(column_from_json(column, where));
    if (!names.insert(output.columns.back().name).second) {
      throw std::runtime_error(where + " has the column '" + output.columns.back().name + "' twice");
    }
  }
  return output;
}

bool holds_text(const Value& value) {
  return std::holds_alternative<std::string>(value);
}

bool starts_a_formula(std::string_view text) {
  return !text.empty() && std::string_view("=+-@\t\r").find(text.front()) != std::string_view::npos;
}

/// The shortest decimal that reads back as the same number; empty when it is not finite.
std::string number_cell(double value) {
  if (!std::isfinite(value)) return {};
  std::array<char, 32> buffer{};
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return {buffer.data(), end};
}

/// Quoted where it must be; with an apostrophe before what a spreadsheet would take for a formula. Lines stay; what
/// would hide text or turn it round is shown.
std::string text_cell(std::string_view text) {
  std::string cell = starts_a_formula(text) ? "'" : "";
  cell += visible_lines(text);
  return csv_field(cell);
}

/// Empty for an empty value.
std::string value_cell(const Value& value) {
  if (const double* number = std::get_if<double>(&value)) return number_cell(*number);
  if (const std::string* text = std::get_if<std::string>(&value)) return text_cell(*text);
  return {};
}

/// Each `old` in `text` becomes `with`.
void replace_all(std::string& text, std::string_view old, std::string_view with) {
  for (auto at = text.find(old); at != std::string::npos; at = text.find(old, at + with.size())) {
    text.replace(at, old.size(), with);
  }
}

/// `cells` are already quoted.
void add_row(std::string& csv, const std::vector<std::string>& cells) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i != 0) csv += ',';
    csv += cells[i];
  }
  csv += "\r\n";
}

/// A cell of a Markdown table.
std::string markdown_cell(std::string text) {
  replace_all(text, "|", "\\|");
  return text;
}

}  // namespace

std::vector<OutputDeclaration> read_outputs(const std::filesystem::path& file) {
  std::ifstream stream(file);
  const nlohmann::json document = nlohmann::json::parse(stream, nullptr, false);
  if (document.is_discarded()) throw std::runtime_error("it is not valid JSON");
  std::vector<OutputDeclaration> outputs;
  std::set<std::string> names;
  for (const nlohmann::json& item : list_member(document, "outputs", "it")) {
    outputs.push_back(output_from_json(item));
    if (!names.insert(outputs.back().file).second) {
      throw std::runtime_error("it declares '" + outputs.back().file + "' twice");
    }
  }
  return outputs;
}

std::string output_breach(const OutputTable& table) {
  const std::vector<OutputColumn>& columns = table.declaration.columns;
  for (std::size_t number = 0; number < table.rows.size(); ++number) {
    const OutputRow& row = table.rows[number];
    const std::string where = "output '" + table.declaration.file + "', row " + std::to_string(number + 1) + ": ";
    if (row.size() != columns.size()) {
      return where + std::to_string(row.size()) + " cells for " + std::to_string(columns.size()) + " columns";
    }
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (!columns[i].unit.empty() && holds_text(row[i])) {
        return where + "column '" + columns[i].name + "' in " + columns[i].unit + " holds text";
      }
      const double* value = std::get_if<double>(&row[i]);
      if (value != nullptr && !std::isfinite(*value)) {
        return where + "column '" + columns[i].name + "' holds a number that is not finite";
      }
    }
  }
  return {};
}

std::string csv_of(const OutputTable& table) {
  std::string csv;
  std::vector<std::string> cells;
  for (const OutputColumn& column : table.declaration.columns) cells.push_back(text_cell(column.name));
  add_row(csv, cells);
  for (const OutputRow& row : table.rows) {
    cells.clear();
    for (const Value& value : row) cells.push_back(value_cell(value));
    add_row(csv, cells);
  }
  return csv;
}

std::string outputs_page(const std::vector<std::pair<std::string, OutputDeclaration>>& outputs) {
  std::string page =
      "# Tables that `build` writes\n\n"
      "Made from the `outputs.json` of each plugin; `panel-dossier plugins --outputs` prints this page.\n\n"
      "CSV by RFC 4180: UTF-8 without byte order mark, comma, CRLF, a header line, double quotes where a cell holds a\n"
      "comma, quote or line break. Column names are single words in ASCII that end in the unit. Numbers have a "
      "decimal\n"
      "point and as many digits as name the value exactly. All are drawn from the findings in `results.json` and hold\n"
      "nothing that is not there.\n\n"
      "A text cell that begins with `=`, `+`, `-`, `@`, a tab or a carriage return gets a leading apostrophe, so that "
      "a\n"
      "spreadsheet shows the text instead of computing it. Take that apostrophe off when reading names back by "
      "program.\n\n"
      "The same tables stand in workbooks, a sheet each, with the units in brackets in the heads and a first sheet "
      "that "
      "says\n"
      "what each column means: all of them in `workshop.xlsx`, and in `tables.xlsx` what goes to the client, without "
      "tables\n"
      "and columns that are marked here as for the workshop. There nothing is put before a text: its cells are cells "
      "of "
      "text.\n";
  for (const auto& [title, output] : outputs) {
    page += "\n## " + output.file + "\n" + title + ": " + output.title + ". " + output.description +
            (output.for_workshop ? " For the workshop." : "") + "\n\n| Column | Unit | Meaning |\n|---|---|---|\n";
    for (const OutputColumn& column : output.columns) {
      page += "| `" + column.name + "` | " + markdown_cell(column.unit) + (column.unit.empty() ? "| " : " | ") +
              markdown_cell(column.meaning) + (column.for_workshop ? "; for the workshop" : "") + " |\n";
    }
  }
  return page;
}

}  // namespace panel_dossier
