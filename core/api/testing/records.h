// Records of panels made by hand.
#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "core/api/model/panel.h"
#include "core/api/model/record.h"

namespace panel_dossier::testing {

/// A row of `records/TABLE.csv`, as the intake would give it.
inline PanelRecord record_of(std::string table, std::string day, std::vector<RecordValue> values,
                             std::uint32_t row = 2) {
  PanelRecord record;
  record.table = std::move(table);
  record.day = std::move(day);
  record.values = std::move(values);
  record.origin.kind = OriginKind::input_table;
  record.origin.table = "records/" + record.table + ".csv";
  record.origin.row = std::to_string(row);
  record.origin.source = record.day;
  return record;
}

/// A cell of text.
inline RecordValue cell_of(std::string column, std::string text) {
  return {std::move(column), std::move(text), {}};
}

/// Adds a record where its day belongs.
inline void add_record(Panel& panel, PanelRecord record) {
  const auto place = std::upper_bound(panel.records.begin(), panel.records.end(), record,
                                      [](const PanelRecord& a, const PanelRecord& b) { return a.day < b.day; });
  panel.records.insert(place, std::move(record));
}

}  // namespace panel_dossier::testing
