#include "core/dossier/handover/tables_workbook.h"

#include <algorithm>
#include <cstddef>
#include <utility>
#include <variant>

#include "core/api/support/words.h"
#include "core/dossier/handover/workbook_file.h"

namespace panel_dossier {

namespace {

bool is_shown(const OutputTable& table, TableReaders readers) {
  return readers == TableReaders::workshop || !table.declaration.for_workshop;
}

/// Indices of the columns that these readers see.
std::vector<std::size_t> shown_columns(const OutputTable& table, TableReaders readers) {
  std::vector<std::size_t> shown;
  const std::vector<OutputColumn>& columns = table.declaration.columns;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (readers == TableReaders::workshop || !columns[i].for_workshop) shown.push_back(i);
  }
  return shown;
}

/// How a column's name spells the unit: `m2` for `m²`, `w_per_mk` for `W/(m·K)`.
std::string spelled(std::string_view unit) {
  std::string text;
  for (std::size_t i = 0; i < unit.size(); ++i) {
    const std::string_view rest = unit.substr(i);
    if (rest.starts_with("²") || rest.starts_with("³") || rest.starts_with("·")) {
      text += rest.starts_with("²") ? "2" : rest.starts_with("³") ? "3" : "";
      ++i;  // two bytes each
    } else if (rest.front() == '/') {
      text += "_per_";
    } else if (rest.front() != '(' && rest.front() != ')' && rest.front() != ' ') {
      text += rest.front();
    }
  }
  return lower_case(text);
}

std::string sheet_of(const OutputDeclaration& table) {
  return table.file.substr(0, table.file.rfind('.'));
}

void write_meanings(WorkbookFile& workbook, const std::vector<OutputTable>& tables, TableReaders readers,
                    const std::string& project, std::string_view time_utc) {
  workbook.begin_sheet("about");
  workbook.widths({16.0, 30.0, 14.0, 90.0});
  workbook.row({project.empty() ? std::string("Project without a name") : project}, true);
  workbook.row({"Build of " + std::string(time_utc)});
  workbook.row(
      {std::string(readers == TableReaders::client
                       ? "Quantities and schedules for the client. Costs and what only the workshop needs are left "
                         "out."
                       : "Quantities, schedules, cutting and costs, for the practice's own people.")});
  workbook.row({std::string("A value is empty where its check was not assessed; dossier.pdf says what is missing.")});
  for (const OutputTable& table : tables) {
    if (!is_shown(table, readers)) continue;
    workbook.row({});
    workbook.row({sheet_of(table.declaration), table.declaration.title});
    workbook.row({{}, table.declaration.description});
    for (const std::size_t i : shown_columns(table, readers)) {
      const OutputColumn& column = table.declaration.columns[i];
      workbook.row({{}, column_head(column), column.unit, column.meaning});
    }
  }
}

void write_rows(WorkbookFile& workbook, const OutputTable& table, TableReaders readers) {
  const std::vector<std::size_t> columns = shown_columns(table, readers);
  std::vector<HeadCell> head;
  head.reserve(columns.size());
  for (const std::size_t i : columns) head.push_back({column_head(table.declaration.columns[i]), 0.0, 0});
  workbook.begin_sheet(sheet_of(table.declaration));
  workbook.head(head);
  for (const OutputRow& row : table.rows) {
    if (workbook.rows() == WorkbookFile::kMostRows) {
      workbook.begin_sheet(sheet_of(table.declaration));
      workbook.head(head);
    }
    std::vector<Value> cells;
    cells.reserve(columns.size());
    for (const std::size_t i : columns) cells.push_back(row[i]);
    workbook.row(cells);
  }
}

}  // namespace

std::string column_head(const OutputColumn& column) {
  std::string name = column.name;
  const std::string suffix = "_" + spelled(column.unit);
  const bool says_unit = !column.unit.empty() && lower_case(name).ends_with(suffix);
  if (says_unit) name.resize(name.size() - suffix.size());
  std::replace(name.begin(), name.end(), '_', ' ');
  const bool is_unit = !column.unit.empty() && column.unit.find('`') == std::string::npos;
  return is_unit ? name + " [" + column.unit + "]" : name;
}

void write_tables(const std::vector<OutputTable>& tables, TableReaders readers, const std::string& project,
                  std::string_view time_utc, const std::filesystem::path& file) {
  WorkbookFile workbook(file, "Tables: " + project, time_utc);
  write_meanings(workbook, tables, readers, project, time_utc);
  for (const OutputTable& table : tables) {
    if (is_shown(table, readers)) write_rows(workbook, table, readers);
  }
  workbook.close();
}

}  // namespace panel_dossier
