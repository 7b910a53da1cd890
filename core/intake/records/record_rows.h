// The rows of one table of records, cell by cell.
#pragma once

#include <cstdint>
#include <vector>

#include "core/api/model/record.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/records/panel_keys.h"
#include "core/intake/records/record_tables.h"
#include "core/intake/tables/input_table.h"

namespace panel_dossier {

struct RecordRow {
  PanelKeys keys;
  PanelRecord record;
  std::uint32_t number = 0;  ///< of the file or sheet
};

/// Heads are told by their titles in either case, with `_` for a space; a number's unit stands in its head. Reports as
/// errors, each with row and column: a needed column or cell that is not there, a length or other number without a
/// unit or with one that is none of its kind, a cell that is not of its column's kind or cannot be, a READING without
/// one, a cover before what it covers. A column that is not known is warned of. Rows with an error are left out.
std::vector<RecordRow> read_record_rows(const RecordTable& table, const InputTable& input, Reporter& report);

}  // namespace panel_dossier
