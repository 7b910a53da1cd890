// Two panels with records beside them, for the tests of reading records.
#pragma once

#include <catch2/catch.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/testing/panels.h"
#include "core/api/testing/temporary_folder.h"
#include "core/intake/records/records_reader.h"
#include "tests/intake/test_support.h"

namespace panel_dossier::intake_test {

/// P-01 and P-02, each of two studs of softwood and a board, with the serial numbers 26-1 and 26-2.
class RecordsProject {
 public:
  Project project;
  Settings settings;
  Diagnostics diagnostics;
  std::vector<SettingsFile> files;

  RecordsProject() {
    project.name = "House";
    project.global_id = "0000000000000000000009";
    const std::size_t softwood = testing::add_material(project, "Softwood", "wood", 420.0, 0.13);
    const std::size_t board = testing::add_material(project, "Board", "wood", 600.0, 0.13);
    for (const char* number : {"1", "2"}) {
      Panel panel = testing::plain_panel(2.4, 2.7);
      panel.mark = std::string("P-0") + number;
      panel.global_id.back() = *number;
      testing::put(panel.properties, "Pset_ManufacturerOccurrence", "SerialNumber", std::string("26-") + number);
      testing::add_part(panel, PartKind::stud, "Stud 01", softwood, {{0.0, 0.0, 0.0}, {0.045, 0.14, 2.7}});
      testing::add_part(panel, PartKind::stud, "Stud 02", softwood, {{0.6, 0.0, 0.0}, {0.645, 0.14, 2.7}});
      testing::add_part(panel, PartKind::sheet, "Board 01", board, {{0.0, 0.14, 0.0}, {1.2, 0.152, 2.7}});
      project.panels.push_back(std::move(panel));
    }
  }

  Panel& first() { return project.panels[0]; }
  Panel& second() { return project.panels[1]; }

  RecordsProject& with(const std::string& file, std::string_view text) {
    folder_.write("records/" + file, text);
    return *this;
  }

  const std::filesystem::path& folder() const { return folder_.path(); }

  RecordsProject& read() {
    Reporter report("the lists of properties");
    std::vector<std::filesystem::path> lists = plugin_files("properties.csv");
    const std::filesystem::path schemas = std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "schemas";
    lists.insert(lists.begin(), schemas / "model_properties.csv");
    const std::vector<PropertyRow> rows = read_property_lists(load_property_lists(lists, report), report);
    files = read_records(project, settings, {folder_.path(), schemas, rows}, diagnostics);
    return *this;
  }

  /// `FILE:ROW:COLUMN: error: …`, one line each.
  std::string told() const { return all_of(diagnostics); }

 private:
  testing::TemporaryFolder folder_;
};

/// What the only diagnostic says of one table with this text.
inline std::string told_of(const std::string& file, std::string_view text) {
  RecordsProject records;
  return records.with(file, text).read().told();
}

}  // namespace panel_dossier::intake_test
