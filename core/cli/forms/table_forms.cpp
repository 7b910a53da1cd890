#include "core/cli/forms/table_forms.h"

#include <algorithm>
#include <array>
#include <set>
#include <string_view>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

/// A table of the library and what the things in it are called where the export names them.
struct LibraryForm {
  std::string_view table;
  std::string_view entity;   ///< as the lists of properties call it
  std::string_view rule;     ///< column that joins a row with the export
  std::string_view heading;  ///< what a row is
};

constexpr std::array kLibraryForms{
    LibraryForm{"materials", "material", "material name", "a material of the export"},
    LibraryForm{"windows", "filling", "name", "a window or door of the export"},
    LibraryForm{"fixings", "part", "name", "a fixing of the export"},
    LibraryForm{"panels", "panel", "name", "a type of panel of the export"},
};

std::string head_of(const PropertyRow& row) {
  const std::string title = row.title.empty() ? row.set + "." + row.property : row.title;
  return row.unit.empty() ? title : title + " [" + row.unit + "]";
}

bool hangs_on(const Gap& gap, std::string_view entity) {
  if (gap.property == nullptr) return false;
  const std::vector<std::string> entities = entities_with(*gap.property);
  return std::find(entities.begin(), entities.end(), entity) != entities.end();
}

std::string type_of(const Panel& panel) {
  return panel.type.empty() ? panel.mark : panel.type;
}

/// What lacks the property; panels by their types.
std::set<std::string> things_of(const Gap& gap, std::string_view entity, const Project& project) {
  if (entity != "panel") return gap.subjects;
  std::set<std::string> types;
  for (const std::size_t panel : gap.panels) types.insert(type_of(project.panels[panel]));
  return types;
}

/// Whether a record gives the property: then the library is no place for it.
bool is_of_records(const std::string& property, const std::vector<RecordTable>& records) {
  return std::any_of(records.begin(), records.end(), [&](const RecordTable& table) {
    return std::any_of(table.columns.begin(), table.columns.end(),
                       [&](const RecordColumn& column) { return column.property == property; });
  });
}

std::string library_form(const LibraryForm& form, const std::vector<const Gap*>& gaps, const Project& project) {
  std::set<std::string> things;
  std::string comments = "# One row " + std::string(form.heading) +
                         ". Fill in what is known, with source and day (YYYY-MM-DD) of each row; what stays empty is "
                         "passed over.\n";
  std::vector<std::string> heads{"product", std::string(form.rule)};
  if (form.entity == "material") {
    heads.emplace_back("category");
    comments += "# category: what it is, such as wood, gypsum or insulation (schemas/material_kinds.csv)\n";
  }
  for (const Gap* gap : gaps) {
    const std::set<std::string> lacking = things_of(*gap, form.entity, project);
    things.insert(lacking.begin(), lacking.end());
    const PropertyRow& row = *gap->property;
    heads.push_back(head_of(row));
    comments +=
        "# " + heads.back() + ": " + gap->name + (row.meaning.empty() ? "" : ", " + row.meaning) +
        (row.words.empty() ? "" : " (" + joined(row.words, ", ") + ")") + "; lacking in " +
        std::to_string(lacking.size()) +
        (gap->disciplines.empty() ? "" : ", needed for " + joined({gap->disciplines.begin(), gap->disciplines.end()})) +
        "\n";
  }
  heads.insert(heads.end(), {"source", "day"});
  std::string text = comments + csv_line(heads);
  for (const std::string& thing : things) {
    std::vector<std::string> cells(heads.size());
    cells[0] = thing;
    cells[1] = thing;
    text += csv_line(cells);
  }
  return text;
}

std::string record_form(const RecordTable& table, const Project& project) {
  std::vector<std::string> heads{std::string(kMarkColumn)};
  std::string comments;
  for (const RecordColumn& column : table.columns) {
    heads.push_back(column.unit.empty() ? column.name : column.name + " [" + column.unit + "]");
    if (column.meaning.empty() && column.words.empty()) continue;
    comments += "# " + column.name + ": " + column.meaning +
                (column.words.empty() ? "" : " (" + joined(column.words, ", ") + ")") + "\n";
  }
  std::string text = comments + csv_line(heads);
  for (const Panel& panel : project.panels) {
    std::vector<std::string> cells(heads.size());
    cells[0] = panel.mark;
    text += csv_line(cells);
  }
  return text;
}

bool gives_what_is_missing(const RecordTable& table, const std::vector<Gap>& gaps) {
  return std::any_of(table.columns.begin(), table.columns.end(), [&](const RecordColumn& column) {
    return !column.property.empty() &&
           std::any_of(gaps.begin(), gaps.end(), [&](const Gap& gap) { return gap.name == column.property; });
  });
}

}  // namespace

std::vector<TableForm> library_forms(const Project& project, const std::vector<Gap>& gaps,
                                     const std::vector<RecordTable>& records) {
  std::vector<TableForm> forms;
  for (const LibraryForm& form : kLibraryForms) {
    std::vector<const Gap*> missed;
    for (const Gap& gap : gaps) {
      if (hangs_on(gap, form.entity) && !is_of_records(gap.name, records)) missed.push_back(&gap);
    }
    if (missed.empty()) continue;
    forms.push_back({"library/" + std::string(form.table) + ".csv", library_form(form, missed, project)});
  }
  return forms;
}

std::vector<TableForm> record_forms(const Project& project, const std::vector<Gap>& gaps,
                                    const std::vector<RecordTable>& tables, bool needed_only) {
  std::vector<TableForm> forms;
  for (const RecordTable& table : tables) {
    if (needed_only && !gives_what_is_missing(table, gaps)) continue;
    forms.push_back({"records/" + table.name + ".csv", record_form(table, project)});
  }
  return forms;
}

}  // namespace panel_dossier
