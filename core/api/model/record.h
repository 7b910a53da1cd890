// What workshop and site wrote down of panels: rows of the tables of records, and the batches they name.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/api/model/origin.h"

namespace panel_dossier {

/// One filled cell of a record.
struct RecordValue {
  std::string column;                             ///< as schemas/records.csv names it: `frame opening width`
  std::variant<double, bool, std::string> value;  ///< a day is a text YYYY-MM-DD
  std::string unit;                               ///< SI symbol, or °C; empty for counts, ratios, logicals and text
};

/// One row of a table of records (schemas/records.md), kept whether or not a newer one counts.
struct PanelRecord {
  std::string table;                ///< `as_built`, `inspections`, `batches`, …
  std::string day;                  ///< on which it was so, YYYY-MM-DD
  std::string what;                 ///< one line for people
  std::string by;                   ///< role, team or firm; may be empty
  std::vector<RecordValue> values;  ///< the other filled cells, in the order of schemas/records.csv
  Origin origin;                    ///< of the row

  /// The cell of that column with its origin; none where it is empty or of another kind.
  std::optional<Sourced<double>> number(std::string_view column) const;
  std::optional<Sourced<std::string>> text(std::string_view column) const;
  /// Empty where the cell is.
  std::string words(std::string_view column) const;
};

/// A record that belongs to no panel of the export.
struct StrayRecord {
  std::string key;  ///< what it names: `mark 'N1-09'`
  PanelRecord record;
};

/// Material or panels that arrived together under one delivery note.
struct Delivery {
  std::string number;
  std::string day;  ///< YYYY-MM-DD
  std::string supplier;
  Origin origin;
};

/// Material of one batch, as it went into panels: what a recall asks for. Materials of one batch reference are a batch
/// each.
struct MaterialBatch {
  std::string reference;                ///< Pset_ManufacturerOccurrence.BatchReference, or the column `batch`
  std::string material;                 ///< name; empty where nobody says
  std::vector<std::string> kinds;       ///< words for what was cut from it: `stud`, `sheet`; each once
  std::vector<std::string> deliveries;  ///< numbers of delivery notes; each once, in alphabetical order
  std::vector<std::size_t> panels;      ///< ascending indices into Project::panels
};

}  // namespace panel_dossier
