#include "core/cli/scaffold/scaffold_text.h"

#include <algorithm>
#include <cctype>
#include <cstddef>
#include <iterator>
#include <sstream>
#include <stdexcept>
#include <string_view>
#include <vector>

namespace panel_dossier {

namespace {

/// Namespaces of the kit and keywords, in which a plugin's namespace `panel_dossier::DISCIPLINE` cannot stand, and
/// names of targets that a build has anyway.
constexpr std::string_view kNoDiscipline[] = {
    "all",      "alignas",  "alignof",   "api",       "asm",      "auto",     "bool",     "boost",    "break",
    "case",     "catch",    "char",      "class",     "clean",    "concept",  "const",    "continue", "core",
    "default",  "delete",   "do",        "double",    "else",     "enum",     "explicit", "export",   "extern",
    "false",    "float",    "for",       "friend",    "goto",     "help",     "if",       "inline",   "install",
    "int",      "long",     "mutable",   "namespace", "new",      "noexcept", "nullptr",  "operator", "package",
    "private",  "property", "protected", "public",    "register", "requires", "return",   "role",     "setting",
    "short",    "signed",   "sizeof",    "static",    "std",      "struct",   "switch",   "template", "test",
    "testing",  "this",     "throw",     "true",      "try",      "typedef",  "typeid",   "typename", "union",
    "unsigned", "using",    "virtual",   "void",      "volatile", "while"};

/// Files and functions that every plugin has, and headers of the C library: a NAME.h in the plugin's folder would be
/// read in their place.
constexpr std::string_view kNoCheck[] = {
    "alloca",   "assert",  "checks", "complex", "ctype",  "dirent",   "endian",    "entry",   "errno",
    "features", "fenv",    "float",  "grp",     "iconv",  "inttypes", "iso646",    "libintl", "limits",
    "link",     "locale",  "main",   "malloc",  "math",   "memory",   "netdb",     "panel",   "poll",
    "project",  "pthread", "pwd",    "regex",   "sched",  "search",   "semaphore", "setjmp",  "signal",
    "spawn",    "stdarg",  "stdint", "stdio",   "stdlib", "string",   "strings",   "syslog",  "termios",
    "tgmath",   "threads", "time",   "uchar",   "unistd", "values",   "wait",      "wchar",   "wctype"};

template <std::size_t size>
bool is_one_of(const std::string_view (&names)[size], std::string_view name) {
  return std::find(std::begin(names), std::end(names), name) != std::end(names);
}

/// Two underscores in a row, or one at the end, would make names that C++ keeps for itself or that read badly.
bool is_plain_name(const std::string& name) {
  const auto is_allowed = [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_'; };
  return !name.empty() && name.front() >= 'a' && name.front() <= 'z' && name.back() != '_' &&
         std::all_of(name.begin(), name.end(), is_allowed) && name.find("__") == std::string::npos;
}

/// `face_area` as `Face area`.
std::string title_of(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  name.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(name.front())));
  return name;
}

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

std::string id_fault(const std::string& id) {
  const std::size_t dot = id.find('.');
  const ScaffoldNames names = dot == std::string::npos ? ScaffoldNames{} : names_of(id);
  if (!is_plain_name(names.plugin) || !is_plain_name(names.check)) {
    return "'" + id +
           "' is no id of a check; give DISCIPLINE.NAME, each of lower-case letters, digits and single underscores "
           "after a letter, for example workshop.face_area";
  }
  if (is_one_of(kNoDiscipline, names.plugin)) {
    return "'" + names.plugin + "' has a meaning in C++, in CMake or in the kit; give another discipline";
  }
  if (is_one_of(kNoCheck, names.check)) {
    return "'" + names.check + "' is the name of a file or function that is there already; give the check another name";
  }
  return {};
}

ScaffoldNames names_of(const std::string& id) {
  const std::size_t dot = id.find('.');
  return {id.substr(0, dot), id.substr(dot + 1)};
}

std::string words_in_capitals(const std::string& name) {
  std::string words;
  bool starts_word = true;
  for (const char c : name) {
    if (c != '_') words += starts_word ? static_cast<char>(std::toupper(static_cast<unsigned char>(c))) : c;
    starts_word = c == '_';
  }
  return words;
}

std::map<std::string, std::string> placeholders(const ScaffoldNames& names, const std::string& include) {
  return {{"@PLUGIN@", names.plugin},
          {"@PLUGIN_WORDS@", words_in_capitals(names.plugin)},
          {"@PLUGIN_TITLE@", title_of(names.plugin)},
          {"@CHECK@", names.check},
          {"@CHECK_WORDS@", words_in_capitals(names.check)},
          {"@CHECK_TITLE@", title_of(names.check)},
          {"@INCLUDE@", include}};
}

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
