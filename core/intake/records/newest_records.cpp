#include "core/intake/records/newest_records.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "core/api/support/words.h"
#include "core/intake/claims/claimed_value.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kResultColumn = "result";
constexpr std::string_view kSubjectColumn = "subject";
constexpr std::string_view kLiningColumn = "lining day";
constexpr std::string_view kDocumentColumn = "document";

/// What a record says of a property, and the row that says it.
struct Stated {
  Property property;
  const PanelRecord* record = nullptr;
};

using Rows = std::vector<const PanelRecord*>;

/// `2.4 m (line 12 of the export)`.
std::string value_and_place(const Property& property) {
  const std::string place = place_in_words(property.origin);
  return claim_in_words(property) + (place.empty() ? "" : " (" + place + ")");
}

/// The cell as a property; none where it is empty.
std::optional<Stated> stated(const PanelRecord& record, const RecordColumn& column) {
  Property property;
  property.unit = column.unit;
  if (column.name == "day") {
    property.value = record.day;
  } else if (column.name == "by") {
    if (record.by.empty()) return std::nullopt;
    property.value = record.by;
  } else {
    const auto found = std::find_if(record.values.begin(), record.values.end(),
                                    [&](const RecordValue& value) { return value.column == column.name; });
    if (found == record.values.end()) return std::nullopt;
    property.value = found->value;
  }
  property.origin = record.origin;
  property.origin.property = column.property;
  return Stated{std::move(property), &record};
}

/// REJECTED before what is open before ACCEPTED.
int severity_of(const std::string& result) {
  if (result == "REJECTED") return 2;
  return result == "ACCEPTED" ? 0 : 1;
}

/// Rows with a result, by what was looked at.
std::map<std::string, Rows> by_subject(const Rows& rows) {
  std::map<std::string, Rows> subjects;
  for (const PanelRecord* record : rows) {
    if (!record->words(kResultColumn).empty()) subjects[lower_case(record->words(kSubjectColumn))].push_back(record);
  }
  return subjects;
}

/// The row whose result counts for the panel; null without any.
const PanelRecord* deciding_row(const Rows& rows) {
  const PanelRecord* deciding = nullptr;
  for (const auto& [subject, of_subject] : by_subject(rows)) {
    const PanelRecord* newest = of_subject.back();
    const int severity = severity_of(newest->words(kResultColumn));
    const int before = deciding == nullptr ? -1 : severity_of(deciding->words(kResultColumn));
    if (severity > before || (severity == before && newest->day > deciding->day)) deciding = newest;
  }
  return deciding;
}

/// Of these a row speaks of one test, or of one state of the membrane: what it says is not put together with what an
/// older one says of another.
bool speaks_of_one_thing(const std::string& table) {
  return table == "air_tests" || table == "weather_exposure";
}

bool feeds_something(const PanelRecord& record, const RecordTable& table) {
  return std::any_of(record.values.begin(), record.values.end(), [&](const RecordValue& value) {
    const RecordColumn* column = table.column(value.column);
    return column != nullptr && !column->property.empty();
  });
}

/// Those of the newest day on which something was recorded that feeds a property.
Rows of_newest_day(const RecordTable& table, const Rows& rows) {
  std::string day;
  for (const PanelRecord* record : rows) {
    if (feeds_something(*record, table)) day = record->day;
  }
  Rows newest;
  std::copy_if(rows.begin(), rows.end(), std::back_inserter(newest),
               [&](const PanelRecord* record) { return record->day == day && feeds_something(*record, table); });
  return newest;
}

/// A row that gives the day of the lining alone is of the lining; its day is none of the installation.
Rows without_lining(const Rows& rows) {
  Rows others;
  std::copy_if(rows.begin(), rows.end(), std::back_inserter(others),
               [](const PanelRecord* record) { return !record->text(kLiningColumn); });
  return others;
}

class NewestOfOne {
 public:
  /// `owner` is the mark of the panel, or the name of the project.
  NewestOfOne(Properties& properties, std::string owner, std::string global_id, Diagnostics& diagnostics)
      : properties_(properties),
        owner_(std::move(owner)),
        global_id_(std::move(global_id)),
        diagnostics_(diagnostics) {}

  /// The rows of one table. Gives what contradicts in them.
  std::vector<std::string> take(const RecordTable& table, const Rows& all_rows) {
    faults_.clear();
    const Rows rows = speaks_of_one_thing(table.name) ? of_newest_day(table, all_rows) : all_rows;
    const bool has_results = table.column(kResultColumn) != nullptr;
    const PanelRecord* deciding = has_results ? deciding_row(rows) : nullptr;
    for (const RecordColumn& column : table.columns) {
      if (column.property.empty()) continue;
      const bool is_of_result = column.name == kResultColumn || column.name == "day" || column.name == "by";
      if (has_results && is_of_result) {
        if (deciding != nullptr) {
          take_of_row(column, rows, *deciding);
        } else {
          // Its day is one that the panel must bear out, whether or not somebody looked at the work.
          take_newest(column, without_lining(rows));
        }
      } else {
        take_newest(column, rows);
      }
    }
    return std::move(faults_);
  }

 private:
  Properties& properties_;
  std::string owner_;
  std::string global_id_;
  Diagnostics& diagnostics_;
  std::vector<std::string> faults_;

  void take_of_row(const RecordColumn& column, const Rows& rows, const PanelRecord& deciding) {
    const auto newest = stated(deciding, column);
    if (!newest) return;
    if (column.name == kResultColumn) {
      if (const auto pair = differing_results(rows)) {
        const auto other = stated(*pair->first, column);
        settle(column, stated(*pair->second, column).value(), &other.value());
        return;
      }
    }
    settle(column, *newest, nullptr);
  }

  /// Of any subject the results of its newest day must agree; two rows that do not, the newer last.
  static std::optional<std::pair<const PanelRecord*, const PanelRecord*>> differing_results(const Rows& rows) {
    for (const auto& [subject, of_subject] : by_subject(rows)) {
      const PanelRecord* newest = of_subject.back();
      const auto found = std::find_if(of_subject.begin(), of_subject.end(), [&](const PanelRecord* record) {
        return record->day == newest->day && record->words(kResultColumn) != newest->words(kResultColumn);
      });
      if (found != of_subject.end()) return std::pair(*found, newest);
    }
    return std::nullopt;
  }

  void take_newest(const RecordColumn& column, const Rows& rows) {
    std::optional<Stated> newest;
    std::optional<Stated> differing;
    for (const PanelRecord* record : rows) {
      auto one = stated(*record, column);
      if (!one) continue;
      if (newest && newest->record->day != record->day) differing.reset();
      if (newest && newest->record->day == record->day && !is_same_claim(newest->property, one->property)) {
        differing = std::move(newest);
      }
      newest = std::move(one);
    }
    if (!newest) return;
    settle(column, *newest, differing ? &*differing : nullptr);
    if (const PanelRecord* silent = row_without_document(column, rows)) {
      withhold(column, *newest,
               "is " + value_and_place(newest->property) + ", but " + place_in_words(silent->origin) +
                   " of that day names no document");
    }
  }

  /// Of one day's tests the report of one is none of another.
  static const PanelRecord* row_without_document(const RecordColumn& column, const Rows& rows) {
    if (column.name != kDocumentColumn) return nullptr;
    const auto found = std::find_if(rows.begin(), rows.end(),
                                    [](const PanelRecord* record) { return !record->text(kDocumentColumn); });
    return found == rows.end() ? nullptr : *found;
  }

  void settle(const RecordColumn& column, const Stated& newest, const Stated* other) {
    const std::size_t dot = column.property.find('.');
    const std::string set = column.property.substr(0, dot);
    const std::string name = column.property.substr(dot + 1);
    const Property* own = properties_.find(set, name);
    if (other != nullptr) {
      const std::string why = "is " + value_and_place(newest.property) + " and " + value_and_place(other->property) +
                              " on one day, " + newest.record->day;
      if (own == nullptr) properties_.add(set, name, newest.property);
      withhold(column, newest, why);
    } else if (own == nullptr) {
      properties_.add(set, name, newest.property);
    } else if (!is_same_claim(*own, newest.property)) {
      withhold(column, newest,
               "is " + value_and_place(*own) + ", but " + value_and_place(newest.property) + " by the newest record");
    }
  }

  void withhold(const RecordColumn& column, const Stated& newest, const std::string& what) {
    const std::string advice = "correct one of them";
    std::string why = column.property;
    why.append(" of '").append(owner_).append("' ").append(what).append("; ").append(advice);
    properties_.withhold(column.property, why);
    diagnostics_.push_back({Severity::warning,
                            newest.record->origin.table,
                            row_number(newest.record->origin),
                            0,
                            {},
                            global_id_,
                            "'" + column.property + "' of '" + owner_ + "' " + what + ", and is not used",
                            advice});
    faults_.push_back(std::move(why));
  }
};

Rows rows_of(const std::vector<PanelRecord>& records, const std::string& table) {
  Rows rows;
  for (const PanelRecord& record : records) {
    if (record.table == table) rows.push_back(&record);
  }
  return rows;
}

}  // namespace

void apply_newest_records(Project& project, const std::vector<RecordTable>& tables, Diagnostics& diagnostics) {
  NewestOfOne building(project.properties, project.name, project.global_id, diagnostics);
  for (const RecordTable& table : tables) building.take(table, rows_of(project.records, table.name));
  for (Panel& panel : project.panels) {
    NewestOfOne newest(panel.properties, panel.mark, panel.global_id, diagnostics);
    for (const RecordTable& table : tables) {
      for (std::string& fault : newest.take(table, rows_of(panel.records, table.name))) {
        panel.contradictions.emplace(table.name, std::move(fault));
      }
    }
  }
}

}  // namespace panel_dossier
