#include "core/cli/scaffold/scaffold_names.h"

#include <algorithm>
#include <cctype>
#include <iterator>
#include <string_view>

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

}  // namespace panel_dossier
