#include "core/intake/records/records_reader.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <string>
#include <utility>

#include "core/intake/records/batch_register.h"
#include "core/intake/records/newest_records.h"
#include "core/intake/records/panel_keys.h"
#include "core/intake/records/record_rows.h"

namespace panel_dossier {

namespace {

class RecordsReader {
 public:
  RecordsReader(Project& project, Diagnostics& diagnostics)
      : project_(project), index_(project), diagnostics_(diagnostics) {}

  void read(const FoundTable& found) {
    const std::string sheet = found.input.sheet.empty() ? "" : ", sheet '" + found.input.sheet + "'";
    Reporter report(found.input.file + sheet);
    for (RecordRow& row : read_record_rows(*found.table, found.input, report)) place(std::move(row), report);
    Diagnostics told = report.take();
    std::move(told.begin(), told.end(), std::back_inserter(diagnostics_));
  }

  void finish() {
    for (Panel& panel : project_.panels) sort_by_day(panel.records);
    sort_by_day(project_.records);
    for (auto& [number, delivery] : deliveries_) project_.deliveries.push_back(std::move(delivery));
  }

 private:
  Project& project_;
  PanelIndex index_;
  Diagnostics& diagnostics_;
  std::map<std::string, Delivery> deliveries_;

  /// Those of one day stay in the order of the tables and of their rows.
  static void sort_by_day(std::vector<PanelRecord>& records) {
    std::stable_sort(records.begin(), records.end(),
                     [](const PanelRecord& a, const PanelRecord& b) { return a.day < b.day; });
  }

  void place(RecordRow row, Reporter& report) {
    if (row.record.table == "deliveries") note_delivery(row, report);
    if (!row.keys.any()) {
      project_.records.push_back(std::move(row.record));
      return;
    }
    const NamedPanel named = index_.find(row.keys);
    if (!named.fault.empty()) {
      report.file_error(row.number, 0, named.fault, "write one panel a row");
    } else if (named.panel) {
      project_.panels[*named.panel].records.push_back(std::move(row.record));
    } else {
      report.add({Severity::warning,
                  {},
                  row.number,
                  0,
                  {},
                  {},
                  row.keys.words() + " is of no panel of the export; the row counts for none",
                  "correct it, or take the row out"});
      project_.stray_records.push_back({row.keys.words(), std::move(row.record)});
    }
  }

  void note_delivery(const RecordRow& row, Reporter& report) {
    const PanelRecord& record = row.record;
    const std::string number = record.words("delivery");
    const auto [known, is_new] = deliveries_.emplace(number, Delivery{number, record.day, record.by, record.origin});
    if (is_new || known->second.day == record.day) return;
    report.file_error(row.number, 0,
                      "delivery '" + number + "' arrives on " + record.day + ", but on " + known->second.day +
                          " by row " + known->second.origin.row,
                      "write one day, or give each delivery its own number");
  }
};

}  // namespace

void place_records(Project& project, const std::vector<FoundTable>& tables, Diagnostics& diagnostics) {
  RecordsReader reader(project, diagnostics);
  for (const FoundTable& table : tables) reader.read(table);
  reader.finish();
}

std::vector<SettingsFile> read_records(Project& project, const Settings& settings, const RecordsOptions& options,
                                       Diagnostics& diagnostics) {
  const std::vector<RecordTable> tables = read_record_tables(options.schema_dir, options.properties);
  const auto named = settings.text("intake.records_folder");
  Diagnostics found;
  FoundRecords records =
      find_records(options.project_dir, named ? named->value : kRecordsFolder, named.has_value(), tables, found);
  place_records(project, records.tables, found);
  if (!has_errors(found)) {
    apply_newest_records(project, tables, found);
    apply_batch_records(project, found);
  }
  register_batches(project);
  std::move(found.begin(), found.end(), std::back_inserter(diagnostics));
  return std::move(records.files);
}

}  // namespace panel_dossier
