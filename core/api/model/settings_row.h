// Where the rows of a table of settings come from.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "core/api/model/settings.h"

namespace panel_dossier {

/// The origin of `column` in row `row` of the table `table`, for example `quarry.stones`: its line of the file that
/// the setting `quarry.stones_file` names, with the row's own source; else the key `quarry.stones.N.COLUMN`.
inline Origin settings_row_origin(const Settings& settings, const std::string& table, std::size_t row,
                                  std::string_view column) {
  const std::string prefix = table + "." + std::to_string(row) + ".";
  const auto file = settings.text(table + "_file");
  const auto line = settings.number(prefix + "line");
  Origin origin;
  if (file && line) {
    origin.kind = OriginKind::data_table;
    origin.table = file->value;
    origin.row = "line " + std::to_string(static_cast<long long>(line->value));
    if (const auto source = settings.text(prefix + "source")) origin.source = source->value;
  } else {
    origin.kind = OriginKind::setting;
    origin.key = prefix + std::string(column);
  }
  return origin;
}

}  // namespace panel_dossier
