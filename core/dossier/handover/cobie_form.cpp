#include "core/dossier/handover/cobie_form.h"

#include <optional>
#include <stdexcept>

#include "core/api/support/words.h"
#include "core/dossier/handover/handover_data.h"

namespace panel_dossier {

namespace {

/// Rows of an embedded table behind its head, each of that many fields. The files are part of the program, so what is
/// wrong with them is an error of the program.
std::vector<std::vector<std::string>> rows_of(std::string_view text, std::size_t fields) {
  std::vector<std::vector<std::string>> rows;
  for (std::string& line : split(text, '\n')) {
    if (line.empty()) continue;
    auto row = csv_fields(line);
    if (!row || row->size() != fields) throw std::logic_error("a row of the form of COBie is broken: " + line);
    rows.push_back(std::move(*row));
  }
  rows.erase(rows.begin());
  return rows;
}

std::vector<CobieSheet> read_sheets() {
  std::vector<CobieSheet> sheets;
  for (const auto& row : rows_of(handover_data::cobie_columns_csv(), 5)) {
    if (sheets.empty() || sheets.back().name != row[0]) sheets.push_back({row[0], {}});
    sheets.back().columns.push_back({row[2], row[3], row[4]});
  }
  return sheets;
}

std::vector<PickList> read_pick_lists() {
  std::vector<PickList> lists;
  for (const auto& row : rows_of(handover_data::cobie_pick_lists_csv(), 3)) {
    if (lists.empty() || lists.back().name != row[1]) lists.push_back({row[1], {}, false});
    if (row[2].starts_with("(classification table")) {
      lists.back().is_regional = true;
    } else {
      lists.back().values.push_back(row[2]);
    }
  }
  return lists;
}

}  // namespace

const std::vector<CobieSheet>& cobie_sheets() {
  static const std::vector<CobieSheet> sheets = read_sheets();
  return sheets;
}

const std::vector<PickList>& cobie_pick_lists() {
  static const std::vector<PickList> lists = read_pick_lists();
  return lists;
}

}  // namespace panel_dossier
