#include "core/cli/scaffold/scaffold_text.h"

#include <algorithm>
#include <cstddef>
#include <sstream>
#include <stdexcept>
#include <vector>

#include "core/cli/scaffold/scaffold_names.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kIncludeStart = "#include \"";

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(std::move(line));
  return lines;
}

std::string text_of_lines(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + '\n';
  return text;
}

/// Offset of the brace that closes the member `properties` of the outermost object; npos when there is none. `json` is
/// valid.
std::size_t end_of_properties(const std::string& json) {
  std::size_t depth = 0;
  bool in_properties = false;
  std::size_t string_start = std::string::npos;
  std::string last_string;
  for (std::size_t i = 0; i < json.size(); ++i) {
    const char c = json[i];
    if (string_start != std::string::npos) {
      if (c == '\\') {
        ++i;
      } else if (c == '"') {
        last_string = json.substr(string_start, i - string_start);
        string_start = std::string::npos;
      }
    } else if (c == '"') {
      string_start = i + 1;
    } else if (c == '{' || c == '[') {
      ++depth;
      if (depth == 2) in_properties = c == '{' && last_string == "properties";
    } else if (c == '}' || c == ']') {
      if (depth == 2 && in_properties) return i;
      --depth;
    }
  }
  return std::string::npos;
}

}  // namespace

std::string filled(std::string text, const std::map<std::string, std::string>& placeholders) {
  for (const auto& [name, value] : placeholders) {
    for (std::size_t at = text.find(name); at != std::string::npos; at = text.find(name, at + value.size())) {
      text.replace(at, name.size(), value);
    }
  }
  return text;
}

std::string with_include(const std::string& text, const std::string& header) {
  std::vector<std::string> lines = lines_of(text);
  const std::string line = std::string(kIncludeStart) + header + '"';
  const auto is_include = [](const std::string& one) { return one.starts_with(kIncludeStart); };
  const auto block_end = std::find_if(lines.rbegin(), lines.rend(), is_include).base();
  if (block_end == lines.begin()) throw std::runtime_error("has no '#include \"…\"' beside which to put another");
  const auto is_first = [&](const auto& at) { return at == lines.begin() || !is_include(*(at - 1)); };
  auto block = block_end - 1;
  while (!is_first(block)) --block;
  if (block == lines.begin()) {  // the source's own header stands by itself
    lines.insert(block_end, {std::string(), line});
  } else {
    lines.insert(std::lower_bound(block, block_end, line), line);
  }
  return text_of_lines(lines);
}

std::string with_check_entered(const std::string& text, const std::string& check) {
  const std::map<std::string, std::string> names{{"@check@", check}, {"@Check@", words_in_capitals(check)}};
  bool is_declared = false;
  bool is_called = false;
  std::vector<std::string> lines;
  for (const std::string& line : lines_of(text)) {
    const std::size_t marker = line.find(kScaffoldMarker);
    if (marker != std::string::npos) {
      const std::string how = line.substr(marker + kScaffoldMarker.size());
      is_declared |= how.find("@Check@") != std::string::npos;
      is_called |= how.find("@check@") != std::string::npos;
      lines.push_back(line.substr(0, marker) + filled(how, names));
    }
    lines.push_back(line);
  }
  if (!is_declared || !is_called) {
    throw std::runtime_error(
        "lacks the line '" + std::string(kScaffoldMarker) +
        (is_declared ? "…check_@check@(…)…' where checks are called" : "k@Check@Check,' in its list of declarations") +
        "; put it there, or enter the check by hand");
  }
  return text_of_lines(lines);
}

std::string with_setting(const std::string& schema, const std::string& property) {
  const std::string key = property.substr(0, property.find(':'));
  if (schema.find(key) != std::string::npos) throw std::runtime_error("has the setting " + key + " already");
  const std::size_t end = end_of_properties(schema);
  if (end == std::string::npos) throw std::runtime_error("has no object 'properties'");
  const std::size_t last = schema.find_last_not_of(" \t\r\n", end - 1);
  const std::string comma = schema[last] == '{' ? "" : ",";
  return schema.substr(0, last + 1) + comma + "\n    " + property + "\n  " + schema.substr(end);
}

std::string with_page(const std::string& text, const std::string& page) {
  constexpr std::string_view kStart = "<!-- checks -->\n";
  constexpr std::string_view kEnd = "<!-- /checks -->";
  const std::size_t start = text.find(kStart);
  const std::size_t end = text.find(kEnd);
  if (start == std::string::npos || end == std::string::npos || end < start) return text;
  const bool is_first = start + kStart.size() == end;
  return text.substr(0, end) + (is_first ? "" : "\n") + page + text.substr(end);
}

}  // namespace panel_dossier
