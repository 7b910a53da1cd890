#include "core/intake/records/record_files.h"

#include <algorithm>
#include <map>
#include <system_error>
#include <utility>

#include "core/api/support/project_file.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view kWorkbookOfAll = "records.xlsx";

/// `In use` and `in_use` are one name.
std::string table_name(std::string_view name) {
  std::string plain = lower_case(name);
  std::replace(plain.begin(), plain.end(), ' ', '_');
  return plain;
}

class RecordsFinder {
 public:
  RecordsFinder(const fs::path& project_dir, std::string folder, const std::vector<RecordTable>& tables,
                Diagnostics& diagnostics)
      : project_dir_(project_dir), folder_(std::move(folder)), tables_(tables), diagnostics_(diagnostics) {}

  FoundRecords find() {
    for (const std::string& name : file_names()) read_file_named(name);
    for (const RecordTable& table : tables_) {
      const auto found = inputs_.find(&table);
      if (found != inputs_.end()) result_.tables.push_back({&table, std::move(found->second)});
    }
    return std::move(result_);
  }

 private:
  const fs::path& project_dir_;
  std::string folder_;
  const std::vector<RecordTable>& tables_;
  Diagnostics& diagnostics_;
  FoundRecords result_;
  std::map<const RecordTable*, InputTable> inputs_;
  std::map<const RecordTable*, std::string> places_;

  void add(Severity severity, const std::string& file, std::string message, std::string advice) {
    diagnostics_.push_back({severity, file, 0, 0, {}, {}, std::move(message), std::move(advice)});
  }

  std::string all_tables() const {
    std::vector<std::string> names;
    for (const RecordTable& table : tables_) names.push_back(table.name);
    return joined(names);
  }

  const RecordTable* table_named(const std::string& name) const {
    const std::string wanted = table_name(name);
    const auto found =
        std::find_if(tables_.begin(), tables_.end(), [&](const RecordTable& table) { return table.name == wanted; });
    return found == tables_.end() ? nullptr : &*found;
  }

  /// Of everything in the folder that somebody may take for records.
  std::vector<std::string> file_names() const {
    std::vector<std::string> names;
    std::error_code failed;
    for (const auto& entry : fs::directory_iterator(project_dir_ / folder_, failed)) {
      const std::string name = entry.path().filename().string();
      // What spreadsheets leave behind while a file is open begins with `~` or `.`.
      if (!name.starts_with('~') && !name.starts_with('.')) names.push_back(name);
    }
    std::sort(names.begin(), names.end());
    return names;
  }

  void read_file_named(const std::string& name) {
    const std::string location = folder_ + "/" + name;
    const std::string stem = fs::path(name).stem().string();
    const RecordTable* table = table_named(stem);
    const bool is_workbook = lower_case(name).ends_with(".xlsx");
    if (!is_workbook && !lower_case(name).ends_with(".csv")) {
      const bool is_meant = table != nullptr || lower_case(stem) == "records";
      add(is_meant ? Severity::error : Severity::warning, location,
          "is neither a .csv nor a .xlsx file and is not read",
          is_meant ? "save the table in one of these forms, or take the file out" : "keep records in tables only");
      return;
    }
    const bool is_workbook_of_all = lower_case(name) == kWorkbookOfAll;
    if (!is_workbook_of_all && table == nullptr) {
      add(Severity::warning, location, "is no table of records and is not read",
          "the tables are " + all_tables() + ", or sheets of these names in records.xlsx");
      return;
    }
    if (find_evidence_file(project_dir_, location) == EvidenceStatus::refused) {
      add(Severity::error, location, "leads out of the project folder; not followed", "copy the file there");
      return;
    }
    auto bytes = load_table_file(project_dir_ / location, location, diagnostics_);
    if (!bytes) return;
    const std::vector<std::string> sheets =
        is_workbook ? sheets_of(*bytes, location, diagnostics_) : std::vector<std::string>{};
    const bool has_named = std::any_of(sheets.begin(), sheets.end(),
                                       [&](const std::string& sheet) { return table_named(sheet) != nullptr; });
    if (is_workbook_of_all || has_named) {
      for (const std::string& sheet : sheets) read_sheet(*bytes, location, sheet);
      result_.files.push_back({location, std::move(*bytes), "Records of workshop and site"});
    } else {
      read_table(*table, *bytes, location, table->name);
      result_.files.push_back({location, std::move(*bytes), "Records of workshop and site: " + table->name});
    }
  }

  void read_sheet(const std::string& bytes, const std::string& location, const std::string& sheet) {
    const RecordTable* table = table_named(sheet);
    if (table == nullptr) {
      add(Severity::warning, location, "the sheet '" + sheet + "' is no table of records and is not read",
          "the tables are " + all_tables());
      return;
    }
    read_table(*table, bytes, location, sheet);
  }

  void read_table(const RecordTable& table, const std::string& bytes, const std::string& location,
                  const std::string& sheet) {
    const auto [place, is_new] = places_.emplace(&table, location);
    if (!is_new) {
      add(Severity::error, location, "the records '" + table.name + "' stand in '" + place->second + "' too",
          "keep them in one place");
      return;
    }
    if (auto input = read_input_table(bytes, location, sheet, diagnostics_)) {
      inputs_.emplace(&table, std::move(*input));
    }
  }
};

/// Links resolved; a folder that leads out of the project is not looked into.
bool is_inside(const fs::path& project_dir, const std::string& folder) {
  std::error_code failed;
  const fs::path real_project = fs::canonical(project_dir, failed);
  const fs::path real_folder = fs::weakly_canonical(real_project / folder, failed);
  const auto [rest, unused] =
      std::mismatch(real_project.begin(), real_project.end(), real_folder.begin(), real_folder.end());
  return !failed && rest == real_project.end();
}

}  // namespace

FoundRecords find_records(const fs::path& project_dir, const std::string& folder, bool is_named,
                          const std::vector<RecordTable>& tables, Diagnostics& diagnostics) {
  std::error_code failed;
  const auto refuse = [&](std::string message, std::string advice) {
    diagnostics.push_back({Severity::error, folder, 0, 0, {}, {}, std::move(message), std::move(advice)});
    return FoundRecords{};
  };
  if (fs::path(folder).is_absolute() || !is_inside(project_dir, folder)) {
    return refuse("the folder of records lies outside of the project folder; not followed",
                  "copy it there and give its relative path");
  }
  if (!fs::is_directory(project_dir / folder, failed)) {
    if (!is_named && !fs::exists(project_dir / folder, failed)) return {};
    return refuse("the folder of records is not there, or is no folder",
                  "correct the setting intake.records_folder, or make the folder");
  }
  return RecordsFinder(project_dir, folder, tables, diagnostics).find();
}

}  // namespace panel_dossier
