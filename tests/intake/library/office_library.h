// A library on the disk and a project that draws on it, for tests.
#pragma once

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "core/api/testing/panels.h"
#include "core/api/testing/properties.h"
#include "core/api/testing/temporary_folder.h"
#include "core/intake/library/library.h"
#include "tests/intake/test_support.h"

namespace panel_dossier::intake_test {

/// What the lists of the program and its plugins know, read once.
inline const std::vector<PropertyRow>& known_properties() {
  static const std::vector<PropertyRow> rows = [] {
    Reporter report("the lists of properties");
    auto files = plugin_files("properties.csv");
    files.insert(files.begin(), std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas/model_properties.csv");
    return read_property_lists(load_property_lists(files, report), report);
  }();
  return rows;
}

/// A folder with `project/` and libraries beside it; the settings name `../office` unless told otherwise.
class OfficeLibrary {
 public:
  OfficeLibrary() {
    write("project/settings.json", "{}");
    project.folder = (folder_.path() / "project").string();
  }

  Project project;
  Settings settings;
  std::vector<std::string> names{"../office"};
  Diagnostics diagnostics;

  void write(const std::string& name, const std::string& text) const { folder_.write(name, text); }
  std::filesystem::path path() const { return folder_.path(); }

  /// Writes the table and adds the library to the project.
  void add(const std::string& table, const std::string& text) {
    write("office/" + table, text);
    add();
  }

  void add() {
    for (std::size_t i = 0; i < names.size(); ++i) settings.set("library." + std::to_string(i), names[i]);
    ProjectLibrary library(settings, {folder_.path() / "project", "settings.json", "2026-06-01"}, known_properties(),
                           MaterialKinds(std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas"), diagnostics);
    files = library.files();
    Confirmations confirmations(settings);
    if (!has_errors(diagnostics)) library.add_to(project, confirmations, "hall.ifcxml", diagnostics);
    confirmed = confirmations.used();
  }

  std::vector<SettingsFile> files;
  std::vector<std::string> confirmed;

  std::string told() const { return all_of(diagnostics); }

 private:
  testing::TemporaryFolder folder_;
};

inline bool holds(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace panel_dossier::intake_test
