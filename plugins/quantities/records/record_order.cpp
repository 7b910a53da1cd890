#include "plugins/quantities/records/record_order.h"

#include <algorithm>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier::quantities {

namespace {

constexpr const char* kAcceptedWord = "ACCEPTED";
constexpr const char* kRejectedWord = "REJECTED";

/// `the inspection of 2026-03-02 (records/inspections.csv, row 3)`.
std::string record_in_words(const PanelRecord& record) {
  std::string word = "the record";
  if (record.table == "as_built") word = "the measuring";
  if (record.table == "inspections") word = "the inspection";
  if (record.table == "deliveries") word = "the delivery";
  if (record.table == "installation") word = "the installation";
  if (record.table == "air_tests") word = "the air test";
  if (record.table == "weather_exposure") word = "the record of exposure to the weather";
  if (record.table == "in_use") word = "the record in use";
  if (record.table == "batches") word = "the use of batch '" + record.words("batch") + "'";
  return word + " of " + record.day + " (" + place_of_record(record) + ")";
}

/// The newest row that says when the panel was made; null without one.
const PanelRecord* making_of(const Panel& panel) {
  const auto found = std::find_if(panel.records.rbegin(), panel.records.rend(), [](const PanelRecord& record) {
    return record.table == "as_built" && record.text("made");
  });
  return found == panel.records.rend() ? nullptr : &*found;
}

/// The newest row by which the panel itself was delivered.
const PanelRecord* delivery_of(const Panel& panel) {
  const auto found = std::find_if(panel.records.rbegin(), panel.records.rend(),
                                  [](const PanelRecord& record) { return record.table == "deliveries"; });
  return found == panel.records.rend() ? nullptr : &*found;
}

/// A frame is inspected before its boards are on: only the finished panel is not inspected before it is made.
bool is_of_finished_panel(const PanelRecord& record) {
  return record.table != "inspections" || record.words("subject").empty();
}

/// Whether the inspection that counts is one of the finished panel; the export does not say of what it is.
bool is_finished_when_inspected(const Panel& panel, const std::string& inspected) {
  return std::none_of(panel.records.begin(), panel.records.end(), [&](const PanelRecord& record) {
    return record.day == inspected && !is_of_finished_panel(record);
  });
}

void judge_making(const Panel& panel, const KnownDays& days, RecordFaults& faults) {
  const PanelRecord* making = making_of(panel);
  if (making == nullptr) return;
  const std::string made = making->words("made");
  const std::string of_making = made + " (" + place_of_record(*making) + ")";
  const auto judge_day = [&](const std::string& day, const char* done, const char* property) {
    if (day.empty() || day >= made) return;
    faults.failures.push_back("the panel was " + std::string(done) + " on " + day + " (" + property +
                              "), before it was made on " + of_making);
  };
  if (is_finished_when_inspected(panel, days.inspected)) {
    judge_day(days.inspected, "inspected", "Panel_Inspection.Date");
  }
  judge_day(days.installed, "installed", "Panel_Install.Date");
  const auto is_told = [&](const PanelRecord& record) {
    return (record.table == "inspections" && record.day == days.inspected) ||
           (record.table == "installation" && record.day == days.installed);
  };
  for (const PanelRecord& record : panel.records) {
    if (record.table == "batches") {
      if (record.day > made) {
        faults.failures.push_back(record_in_words(record) + " lies after the day on which the panel was made, " +
                                  of_making);
      }
    } else if (record.day < made && is_of_finished_panel(record) && !is_told(record)) {
      faults.failures.push_back(record_in_words(record) + " lies before the day on which the panel was made, " +
                                of_making);
    }
  }
}

/// A rejection that was lifted, but too late.
void judge_rejections(const Panel& panel, const std::string& installed, RecordFaults& faults) {
  for (auto record = panel.records.begin(); record != panel.records.end(); ++record) {
    if (record->table != "inspections" || record->words("result") != kRejectedWord || record->day > installed) continue;
    const auto lifts = [&](const PanelRecord& later) {
      return later.table == "inspections" && later.words("result") == kAcceptedWord &&
             later.words("subject") == record->words("subject");
    };
    const auto lifting = std::find_if(record + 1, panel.records.end(), lifts);
    if (lifting == panel.records.end() || lifting->day <= installed) continue;
    faults.failures.push_back("the panel was installed on " + installed + ", while " + record_in_words(*record) +
                              " stood rejected: it was accepted on " + lifting->day + " (" + place_of_record(*lifting) +
                              ")");
  }
}

void judge_installing(const Panel& panel, const std::string& installed, RecordFaults& faults) {
  if (const PanelRecord* delivery = delivery_of(panel); delivery != nullptr && delivery->day > installed) {
    faults.failures.push_back("the panel was installed on " + installed + ", before " + record_in_words(*delivery));
  }
  for (const PanelRecord& record : panel.records) {
    if (record.table == "in_use" && record.day < installed) {
      faults.failures.push_back(record_in_words(record) + " lies before the panel was installed, on " + installed);
    }
    const std::string lined = record.words("lining day");
    if (!lined.empty() && lined < installed) {
      faults.failures.push_back(joined({"the lining was fixed on ", lined, " (", place_of_record(record),
                                        "), before the panel was installed, on ", installed},
                                       ""));
    }
  }
  judge_rejections(panel, installed, faults);
}

void judge_assessment(const Panel& panel, const std::string& assessed, RecordFaults& faults) {
  const auto is_judged_elsewhere = [](const PanelRecord& record) {
    return record.table == "inspections" || record.table == "installation";
  };
  for (const PanelRecord& record : panel.records) {
    if (is_judged_elsewhere(record)) continue;
    if (assessed.empty()) {
      faults.gaps.push_back("whether " + record_in_words(record) +
                            " has been is not known: set project.assessment_date");
      return;
    }
    if (record.day > assessed) {
      faults.gaps.push_back(record_in_words(record) + " lies after project.assessment_date " + assessed);
    }
  }
}

}  // namespace

std::string place_of_record(const PanelRecord& record) {
  return record.origin.table + ", row " + record.origin.row;
}

RecordFaults faults_of_order(const Panel& panel, const KnownDays& days) {
  RecordFaults faults;
  judge_making(panel, days, faults);
  if (!days.installed.empty()) judge_installing(panel, days.installed, faults);
  judge_assessment(panel, days.assessed, faults);
  return faults;
}

}  // namespace panel_dossier::quantities
