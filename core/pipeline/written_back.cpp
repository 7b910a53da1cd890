#include "core/pipeline/written_back.h"

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>

#include "core/intake/graph/property_reader.h"

namespace panel_dossier {

namespace {

std::string member_text(const nlohmann::json& row, const char* name) {
  const auto found = row.find(name);
  if (found == row.end() || !found->is_string() || found->get<std::string>().empty()) {
    throw std::runtime_error(std::string("a row has no text '") + name + "'");
  }
  return found->get<std::string>();
}

WrittenBack row_from_json(const nlohmann::json& item) {
  if (!item.is_object()) throw std::runtime_error("a row is no object");
  for (const auto& [name, value] : item.items()) {
    static const std::set<std::string> kMembers{"check", "set", "property", "meaning", "without_fillings"};
    if (!kMembers.contains(name)) throw std::runtime_error("a row has the unknown member '" + name + "'");
  }
  WrittenBack row{member_text(item, "check"), member_text(item, "set"), member_text(item, "property"),
                  member_text(item, "meaning")};
  const auto without = item.find("without_fillings");
  if (without == item.end()) return row;
  if (!without->is_boolean()) throw std::runtime_error("'without_fillings' of '" + row.check + "' is no true or false");
  row.without_fillings = without->get<bool>();
  return row;
}

std::string full_name(const WrittenBack& row) {
  return row.set + "." + row.property;
}

/// Text, a plain number or a number with a unit.
bool can_be_written(const StandardProperty& property) {
  if (find_quantity(property.type) != nullptr) return true;
  const Measure* measure = find_measure(property.type);
  return measure != nullptr && measure->kind != MeasureKind::logical && measure->kind != MeasureKind::duration;
}

}  // namespace

std::vector<WrittenBack> read_written_back(const std::filesystem::path& file) {
  std::ifstream stream(file);
  const nlohmann::json document = nlohmann::json::parse(stream, nullptr, false);
  if (document.is_discarded()) throw std::runtime_error("it is not valid JSON");
  const auto list = document.is_object() ? document.find("written_back") : document.end();
  if (list == document.end() || !list->is_array() || list->empty()) {
    throw std::runtime_error("it has no list 'written_back'");
  }
  std::vector<WrittenBack> rows;
  std::set<std::string> names;
  for (const nlohmann::json& item : *list) {
    rows.push_back(row_from_json(item));
    for (const std::string& name : {rows.back().check, full_name(rows.back())}) {
      if (!names.insert(name).second) throw std::runtime_error("it names '" + name + "' twice");
    }
  }
  return rows;
}

std::string written_back_breach(const std::vector<WrittenBack>& rows, const std::vector<CheckDeclaration>& checks,
                                const StandardSets& standard) {
  for (const WrittenBack& row : rows) {
    const std::string where = "'" + row.check + "' into '" + full_name(row) + "': ";
    const auto check =
        std::find_if(checks.begin(), checks.end(), [&](const CheckDeclaration& one) { return one.id == row.check; });
    if (check == checks.end()) return where + "the plugin declares no such check";
    if (check->scope == CheckScope::project) return where + "the check makes no findings of panels";
    const StandardProperty* property = standard.find(row.set, row.property);
    if (property == nullptr) return where + "the standard has no such property of an element";
    if (!can_be_written(*property)) return where + "a value of type '" + property->type + "' cannot be written";
    const std::vector<std::string> units =
        property->unit.empty() ? std::vector<std::string>() : std::vector<std::string>{property->unit};
    if (check->units != units) return where + "the property is in '" + property->unit + "', the check's result is not";
  }
  return {};
}

std::string written_back_page(const std::vector<std::pair<std::string, WrittenBack>>& rows) {
  if (rows.empty()) return {};
  std::string page =
      "\n# Properties that `build --write-back` writes\n\n"
      "Made from the `written_back.json` of each plugin: results for which the standard has a property, written there\n"
      "beside `Panel_Results`; when and how [requirements.md](requirements.md) says.\n\n"
      "| Property | Check | Discipline | Meaning |\n|---|---|---|---|\n";
  for (const auto& [title, row] : rows) {
    page += "| `" + full_name(row) + "` | `" + row.check + "` | " + title + " | " + row.meaning +
            (row.without_fillings ? "; of panels without windows and doors" : "") + " |\n";
  }
  return page;
}

}  // namespace panel_dossier
