#include "core/intake/library/library_people.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/tables/cell_reader.h"

namespace panel_dossier {

namespace {

constexpr std::array kPartyColumns{
    std::pair{std::string_view("role"), &Party::role},
    std::pair{std::string_view("name"), &Party::name},
    std::pair{std::string_view("organisation"), &Party::organisation},
    std::pair{std::string_view("address"), &Party::address},
    std::pair{std::string_view("contact"), &Party::contact},
};

std::vector<Party> parties_of(const InputTable& table, Reporter& report) {
  CellReader cells(table, report);
  for (const TableColumn& column : table.columns) {
    const bool is_known = std::any_of(kPartyColumns.begin(), kPartyColumns.end(),
                                      [&](const auto& known) { return known.first == lower_case(column.title); });
    if (!is_known) {
      report.file_error(table.head_row, column.number, "'" + column.title + "' is no column of people",
                        "columns are role, name, organisation, address and contact");
    }
  }
  const auto role_column = table.column("role");
  if (!role_column) report.file_error(table.head_row, 0, "the table has no column 'role'", "see schemas/library.md");
  if (report.has_errors()) return {};
  std::vector<Party> parties;
  std::set<std::string> known;
  for (const TableRow& row : table.rows) {
    Party party;
    for (const auto& [title, member] : kPartyColumns) {
      if (const auto column = table.column(title)) party.*member = row.cells[*column];
    }
    party.origin = table_origin(table, row, "role");
    if (party.role.empty()) cells.error(row, *role_column, "is empty", "write the role, such as technical manager");
    if (party.name.empty() && party.organisation.empty()) {
      report.file_error(row.number, 0, "the row names neither a person nor an organisation", "name one of them");
    }
    if (!known.insert(lower_case(party.role + "\n" + party.name + "\n" + party.organisation)).second) {
      report.file_error(row.number, 0, "the row stands twice", "keep one of the rows");
    }
    parties.push_back(std::move(party));
  }
  return parties;
}

}  // namespace

std::vector<Party> read_parties(const LibraryFiles& files, Diagnostics& diagnostics) {
  std::vector<Party> parties;
  for (const LibraryTable& source : files.tables) {
    if (source.kind != LibraryTableKind::people) continue;
    Reporter report(source.table.file);
    const std::vector<Party> read = parties_of(source.table, report);
    for (const Party& party : read) {
      // Of this library several may share a role; it stands in place of those of the libraries before.
      const auto is_replaced = [&](const Party& earlier) {
        return earlier.origin.table != party.origin.table && lower_case(earlier.role) == lower_case(party.role);
      };
      const auto earlier = std::find_if(parties.begin(), parties.end(), is_replaced);
      if (earlier == parties.end()) continue;
      report.file_warning(
          "names the role '" + party.role + "' in place of " + earlier->origin.table + " row " + earlier->origin.row,
          "take one of the rows away, if that is not meant");
      std::erase_if(parties, is_replaced);
    }
    parties.insert(parties.end(), read.begin(), read.end());
    Diagnostics found = report.take();
    std::move(found.begin(), found.end(), std::back_inserter(diagnostics));
  }
  return parties;
}

}  // namespace panel_dossier
