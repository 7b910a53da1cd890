#include "core/dossier/handover/cobie_check.h"

#include <algorithm>
#include <map>
#include <set>
#include <string_view>
#include <utility>

#include "core/api/support/words.h"
#include "core/dossier/handover/workbook_file.h"

namespace panel_dossier {

namespace {

constexpr std::size_t kLongestNameOfRow = 255;
constexpr std::string_view kPickListPrefix = "PickLists.";
constexpr std::string_view kListSuffix = " (list)";
constexpr std::string_view kNameIn = "Name in ";

/// Columns that together name a row of the sheet.
std::vector<std::string> key_of(const std::string& sheet) {
  if (sheet == "Contact") return {"Email"};
  if (sheet == "Zone") return {"Name", "Category", "SpaceNames"};
  if (sheet == "System") return {"Name", "Category", "ComponentNames"};
  if (sheet == "Job") return {"Name", "TypeName", "TaskNumber"};
  if (sheet == "Document") return {"Name", "Stage", "Category", "SheetName", "RowName"};
  if (sheet == "Attribute") return {"Name", "SheetName", "RowName"};
  if (sheet == "Impact") return {"ImpactType", "ImpactStage", "SheetName", "RowName"};
  return {"Name"};
}

bool is_absent(const std::string& text) {
  return text == kNotApplicable;
}

class Checker {
 public:
  explicit Checker(const CobieBook& book) : book_(book) {}

  std::vector<std::string> faults() {
    for (const CobieTable& table : book_.sheets()) {
      keys_stand_once(table);
      for (std::size_t row = 0; row < table.rows().size(); ++row) look_at(table, row);
    }
    types_are_used();
    return std::move(faults_);
  }

 private:
  const CobieBook& book_;
  std::vector<std::string> faults_;
  std::map<std::string, std::set<std::string>, std::less<>> names_;  ///< of a sheet's rows, once asked for
  std::map<std::string, std::set<std::string>, std::less<>> lists_;  ///< values of pick lists, once asked for

  void fault(const CobieTable& table, std::size_t row, const std::string& what) {
    // The head is row 1 of the sheet.
    faults_.push_back(table.form().name + " row " + std::to_string(row + 2) + ": " + what);
  }

  void keys_stand_once(const CobieTable& table) {
    std::set<std::string> keys;
    for (std::size_t row = 0; row < table.rows().size(); ++row) {
      std::string key;
      for (const std::string& column : key_of(table.form().name)) key += table.text(row, column) + '\n';
      if (!keys.insert(key).second) fault(table, row, "its key stands twice");
    }
  }

  void look_at(const CobieTable& table, std::size_t row) {
    for (const CobieColumn& column : table.form().columns) {
      const std::string text = table.text(row, column.name);
      const bool is_name = column.name == "Name" || column.name == "Email";
      if (text.empty()) fault(table, row, column.name + " is empty");
      if (text.size() > WorkbookFile::kLongestText) fault(table, row, column.name + " is longer than a cell can be");
      if (is_name && text.size() > kLongestNameOfRow) fault(table, row, column.name + " is longer than a name may be");
      if (is_name && enters_lists(table.form().name) && text.find(',') != std::string::npos)
        fault(table, row, column.name + " '" + text + "' has a comma, which parts the names of a list");
      if (!column.refers_to.empty() && !is_absent(text)) follow(table, row, column, text);
    }
  }

  static bool enters_lists(const std::string& sheet) {
    return sheet == "Space" || sheet == "Component" || sheet == "Job" || sheet == "Resource" || sheet == "Contact" ||
           sheet == "Type";
  }

  void follow(const CobieTable& table, std::size_t row, const CobieColumn& column, const std::string& text) {
    std::string_view to = column.refers_to;
    if (to.starts_with(kPickListPrefix)) {
      if (!is_picked(std::string(to.substr(kPickListPrefix.size())), text))
        fault(table, row, column.name + " '" + text + "' is not in the list " + std::string(to));
      return;
    }
    const bool is_list = to.ends_with(kListSuffix);
    if (is_list) to.remove_suffix(kListSuffix.size());
    const std::string sheet =
        to.starts_with(kNameIn) ? table.text(row, to.substr(kNameIn.size())) : std::string(to.substr(0, to.find('.')));
    const std::vector<std::string> names = is_list ? split(text, ',') : std::vector<std::string>{text};
    for (const std::string& name : names) {
      if (!names_of(sheet).count(name))
        fault(table, row, joined({column.name, " '", name, "' is no row of ", sheet}, ""));
    }
  }

  bool is_picked(const std::string& name, const std::string& text) {
    const auto& all = cobie_pick_lists();
    const auto list =
        std::find_if(all.begin(), all.end(), [&name](const PickList& known) { return known.name == name; });
    if (list == all.end()) return false;
    if (list->is_regional) return true;
    if (list->is_of_classes()) return text.starts_with("Ifc") || text.starts_with("Pset_");
    const auto [values, is_new] = lists_.try_emplace(name);
    if (is_new) values->second.insert(list->values.begin(), list->values.end());
    return values->second.count(text) != 0;
  }

  const std::set<std::string>& names_of(const std::string& sheet) {
    const auto [names, is_new] = names_.try_emplace(sheet);
    if (!is_new) return names->second;
    for (const CobieTable& table : book_.sheets()) {
      if (table.form().name != sheet) continue;
      const char* key = sheet == "Contact" ? "Email" : "Name";
      for (std::size_t row = 0; row < table.rows().size(); ++row) names->second.insert(table.text(row, key));
    }
    return names->second;
  }

  void types_are_used() {
    const CobieTable& types = book_.sheet("Type");
    const CobieTable& components = book_.sheet("Component");
    std::set<std::string> used;
    for (std::size_t row = 0; row < components.rows().size(); ++row) {
      used.insert(components.text(row, "TypeName"));
      if (is_absent(components.text(row, "TypeName"))) fault(components, row, "it has no type");
    }
    for (std::size_t row = 0; row < types.rows().size(); ++row) {
      if (used.count(types.text(row, "Name")) == 0) fault(types, row, "no component has this type");
    }
  }
};

}  // namespace

std::vector<std::string> cobie_faults(const CobieBook& book) {
  return Checker(book).faults();
}

std::vector<std::string> own_values(const CobieBook& book, const PickList& list) {
  std::set<std::string> own;
  for (const CobieTable& table : book.sheets()) {
    for (const CobieColumn& column : table.form().columns) {
      if (column.refers_to != std::string(kPickListPrefix) + list.name) continue;
      for (std::size_t row = 0; row < table.rows().size(); ++row) {
        std::string text = table.text(row, column.name);
        const bool is_known = std::find(list.values.begin(), list.values.end(), text) != list.values.end();
        if (!is_known && !is_absent(text)) own.insert(std::move(text));
      }
    }
  }
  return {own.begin(), own.end()};
}

}  // namespace panel_dossier
