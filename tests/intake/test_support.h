// Reading the small exports beside the tests.
#pragma once

#include <algorithm>
#include <cstddef>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "core/intake/document/diagnostics.h"
#include "core/intake/export_reader.h"
#include "core/intake/graph/property_list.h"

namespace panel_dossier::intake_test {

inline const std::filesystem::path kData = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "tests/intake/data";

/// The file of that name of every plugin that has one, by name of the plugin.
inline std::vector<std::filesystem::path> plugin_files(const std::string& name) {
  std::vector<std::filesystem::path> files;
  for (const auto& plugin :
       std::filesystem::directory_iterator(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "plugins")) {
    if (std::filesystem::exists(plugin.path() / name)) files.push_back(plugin.path() / name);
  }
  std::sort(files.begin(), files.end());
  return files;
}

inline IntakeOptions options() {
  Reporter report("the lists of properties");
  return {std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas", kData, std::nullopt,
          load_property_lists(plugin_files("properties.csv"), report)};
}

inline std::string file_text(const std::string& name) {
  std::ifstream stream(kData / name, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

inline IntakeResult read_text(std::string_view text) {
  return read_export(text, "hall.ifcxml", options());
}

/// The text with the first occurrence of `from` after `anchor` replaced. Throws when either is not there, so that a
/// test never runs on an unchanged file.
inline std::string edited(std::string text, std::string_view anchor, std::string_view from, std::string_view to) {
  const std::size_t start = text.find(anchor);
  const std::size_t at = start == std::string::npos ? start : text.find(from, start);
  if (at == std::string::npos) throw std::logic_error("nothing to edit: " + std::string(from));
  return text.replace(at, from.size(), to);
}

inline std::string all_of(const Diagnostics& diagnostics) {
  std::string text;
  for (const Diagnostic& diagnostic : diagnostics) text += to_string(diagnostic) + "\n";
  return text;
}

}  // namespace panel_dossier::intake_test
