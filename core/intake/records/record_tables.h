// What the tables of records hold: schemas/records.csv.
#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/intake/document/value_range.h"
#include "core/intake/graph/property_list.h"

namespace panel_dossier {

enum class RecordKind { text, word, day, number };

struct RecordColumn {
  std::string name;
  RecordKind kind = RecordKind::text;
  std::string unit;                      ///< inside the program; empty for a ratio and for what is no number
  bool is_required = false;              ///< every row has it
  std::string property;                  ///< `Pset.Property` of the panel that the newest record gives; empty for none
  std::optional<ValueRange> range = {};  ///< what a number can be
  std::vector<std::string> words = {};
  std::string meaning;
};

/// One kind of table. Its columns `day` and `by` come first.
struct RecordTable {
  std::string name;  ///< `as_built`: name of the file or sheet
  std::vector<RecordColumn> columns;

  /// Null for a name that it does not have.
  const RecordColumn* column(std::string_view name) const;
  /// Whether a row may name no panel: it then speaks of a delivery of material, or of the whole building.
  bool may_name_no_panel() const { return name == "deliveries" || name == "air_tests"; }
};

/// The heads that name a panel, in every table.
inline constexpr std::string_view kMarkColumn = "mark";
inline constexpr std::string_view kSerialColumn = "serial number";
inline constexpr std::string_view kGlobalIdColumn = "GlobalId";

/// The tables in the order of the file. A column that feeds a property has the range and the words of the property in
/// `rows`, where it is listed there. Throws std::runtime_error `FILE:LINE: what is wrong`.
std::vector<RecordTable> read_record_tables(const std::filesystem::path& schema_dir,
                                            const std::vector<PropertyRow>& rows);

}  // namespace panel_dossier
