#include "core/intake/graph/property_list.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <sstream>
#include <string_view>
#include <tuple>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kHeader = "set,property,title,on,measure,unit,range,usual,need,standard,meaning";
// The columns that every list has had; those of older dossiers and plugins have no others.
constexpr std::string_view kNeededColumns = "set,property,on,measure,unit,meaning";
constexpr std::string_view kNone = "none";  ///< column `standard`: the standard has no such property
constexpr const char* kReinstall = "reinstall the program with its schemas and plugins";

constexpr std::string_view kIntroduction =
    "# The property sets that the program and its plugins read, put together from schemas/model_properties.csv and "
    "the\n"
    "# properties.csv of each plugin. Sets with the prefix Pset_ or Qto_ are the standard's; those with Panel_ are "
    "ours.\n"
    "# title: what people call it, at the head of a column or of a line. on: entity the set hangs on (through its "
    "occurrence,\n"
    "# its type, or material properties). measure: IFC measure type. unit: the unit of the value inside the program; "
    "the\n"
    "# export's own unit assignment or property unit is converted. A value of a measure type with another unit, or of "
    "a plain\n"
    "# number where a unit is wanted, is reported and not read.\n"
    "# range: a number outside of it cannot be, and the export is refused; of a text, the words it may be. usual: a "
    "number\n"
    "# outside of it is not used unless the settings confirm it. Both are common practice, wide enough for any product "
    "in use;\n"
    "# schemas/material_kinds.csv says more closely what is usual of a kind of material.\n"
    "# need: must, where a discipline has nothing to say without it; else useful. standard: beside a property of ours, "
    "the\n"
    "# standard's own that says the same and is read first (several: separated by |), or none where the standard has "
    "none.\n";

constexpr std::array<std::string_view, 6> kTextMeasures{"IfcBoolean",    "IfcLogical", "IfcLabel",
                                                        "IfcIdentifier", "IfcText",    "IfcDate"};

bool is_text(const PropertyRow& row) {
  return std::find(kTextMeasures.begin(), kTextMeasures.end(), row.measure) != kTextMeasures.end();
}

/// What is wrong with the columns `range` and `usual`; empty when they can be read.
std::string read_bounds(PropertyRow& row) {
  if (is_text(row)) {
    row.words = split(row.bounds, '|');
    return row.custom.empty() ? std::string() : "has a 'usual' but is no number";
  }
  row.range = parse_range(row.bounds);
  row.usual = parse_range(row.custom);
  if (!row.range) return "has the range '" + row.bounds + "', which is none as 0.1..2";
  if (!row.usual) return "has the usual range '" + row.custom + "', which is none as 0.1..2";
  return row.range->holds(*row.usual) ? std::string() : "has a usual range that goes beyond its range";
}

/// Where each column of a list stands.
class Columns {
 public:
  explicit Columns(const std::vector<std::string>& head) : count_(head.size()) {
    for (std::size_t i = 0; i < head.size(); ++i) place_.emplace(head[i], i);
  }

  /// What is wrong with the head; empty when the list can be read by it.
  std::string fault() const {
    const std::vector<std::string> known = split(kHeader, ',');
    for (const auto& [name, place] : place_) {
      if (std::find(known.begin(), known.end(), name) == known.end()) return "has the unknown column '" + name + "'";
    }
    for (const std::string& name : split(kNeededColumns, ',')) {
      if (!has(name)) return "has no column '" + name + "'";
    }
    return {};
  }

  std::size_t count() const { return count_; }
  bool has(const std::string& name) const { return place_.contains(name); }
  /// Empty for a column that the list does not have.
  std::string field(const std::vector<std::string>& fields, const std::string& name) const {
    const auto found = place_.find(name);
    return found == place_.end() ? std::string() : fields[found->second];
  }

 private:
  std::map<std::string, std::size_t> place_;
  std::size_t count_;
};

/// What is wrong with what the list says beyond the value itself; empty when it can be read.
std::string read_remarks(const Columns& columns, const std::vector<std::string>& fields, PropertyRow& row) {
  row.title = columns.field(fields, "title");
  if (row.title.empty() && columns.has("title")) return "has no title";
  if (row.title.empty()) row.title = row.set + "." + row.property;
  const std::string need = columns.field(fields, "need");
  if (need == "must") row.need = PropertyNeed::must;
  if (columns.has("need") && need != "must" && need != "useful")
    return "has the need '" + need + "', not must or useful";
  const std::string standard = columns.field(fields, "standard");
  if (is_standard_set(row.set))
    return standard.empty() ? std::string() : "is the standard's and has a 'standard' beside it";
  if (standard.empty() && columns.has("standard"))
    return "does not say which property of the standard it stands beside";
  if (!standard.empty() && standard != kNone) row.standard = split(standard, '|');
  return {};
}

PropertyRow read_row(const Columns& columns, const std::vector<std::string>& fields, std::string place) {
  const auto field = [&](const char* name) { return columns.field(fields, name); };
  return {field("set"),   field("property"), field("on"),      field("measure"), field("unit"),
          field("range"), field("usual"),    field("meaning"), std::move(place)};
}

/// The columns of the list by its head. None, and a report, when it cannot be read by them.
std::optional<Columns> read_head(std::string_view text, const std::string& place, Reporter& report) {
  const Columns columns(csv_fields(text).value_or(std::vector<std::string>()));
  const std::string fault = columns.fault();
  if (fault.empty()) return columns;
  report.file_error(0, 0, joined({"the head in '", place, "' ", fault}, ""),
                    "write the columns " + std::string(kHeader));
  return std::nullopt;
}

void read_list(const PropertyListText& list, Reporter& report, std::vector<PropertyRow>& rows) {
  std::istringstream stream(list.text);
  std::optional<Columns> columns;
  std::size_t number = 0;
  for (std::string line; std::getline(stream, line);) {
    ++number;
    const std::string_view text = trimmed(line);
    if (text.empty() || text.front() == '#') continue;
    const std::string place = list.name + ":" + std::to_string(number);
    if (!columns) {
      columns = read_head(text, place, report);
      if (!columns) return;
      continue;
    }
    const auto fields = csv_fields(text);
    if (!fields || fields->size() != columns->count()) {
      report.file_error(0, 0, "'" + place + "' has not the fields of its head",
                        "mend the line, with quotes around a field with a comma");
      continue;
    }
    PropertyRow row = read_row(*columns, *fields, place);
    std::string wrong = columns->has("range") ? read_bounds(row) : std::string();
    if (wrong.empty()) wrong = read_remarks(*columns, *fields, row);
    if (!wrong.empty()) {
      report.file_error(0, 0, joined({"'", place, "' ", wrong}, ""), "mend the line");
      continue;
    }
    rows.push_back(std::move(row));
  }
}

/// Office tables have the titles as heads of their columns: two of one entity must differ.
void report_shared_titles(const std::vector<PropertyRow>& rows, Reporter& report) {
  std::map<std::pair<std::string, std::string>, const PropertyRow*> first;
  for (const PropertyRow& row : rows) {
    for (const std::string& on : entities_with(row)) {
      const PropertyRow& before = *first.emplace(std::pair(on, row.title), &row).first->second;
      if (before.set == row.set && before.property == row.property) continue;
      report.file_error(0, 0,
                        joined({"'", row.title, "' is the title of '", before.set, ".", before.property, "' in '",
                                before.place, "' and of '", row.set, ".", row.property, "' in '", row.place, "'"},
                               ""),
                        "give each its own title");
    }
  }
}

void report_conflicts(const std::vector<PropertyRow>& rows, Reporter& report) {
  std::map<std::pair<std::string, std::string>, const PropertyRow*> first;
  const auto shown = [](const PropertyRow& row) {
    return row.measure + (row.unit.empty() ? "" : " in " + row.unit) + (row.bounds.empty() ? "" : " of " + row.bounds) +
           (row.custom.empty() ? "" : ", usually " + row.custom);
  };
  for (const PropertyRow& row : rows) {
    const PropertyRow& before = *first.emplace(std::pair(row.set, row.property), &row).first->second;
    if (shown(before) == shown(row)) continue;
    report.file_error(0, 0,
                      "'" + row.set + "." + row.property + "' is " + shown(before) + " in '" + before.place + "' and " +
                          shown(row) + " in '" + row.place + "'",
                      "give it one measure, unit and range, or leave one of the plugins out");
  }
}

}  // namespace

std::vector<PropertyListText> load_property_lists(const std::vector<std::filesystem::path>& files, Reporter& report) {
  std::vector<PropertyListText> lists;
  for (const std::filesystem::path& file : files) {
    std::ifstream stream(file);
    if (!stream) {
      report.file_error(0, 0, "the list of property sets '" + file.string() + "' cannot be read", kReinstall);
    }
    lists.push_back({file.string(), {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()}});
  }
  return lists;
}

std::vector<PropertyRow> read_property_lists(const std::vector<PropertyListText>& lists, Reporter& report) {
  std::vector<PropertyRow> rows;
  for (const PropertyListText& list : lists) read_list(list, report, rows);
  report_conflicts(rows, report);
  report_shared_titles(rows, report);
  return rows;
}

std::vector<std::string> entities_with(const PropertyRow& row) {
  constexpr std::string_view kOr = " or ";
  std::vector<std::string> entities;
  std::string_view rest = row.on;
  for (std::size_t end = rest.find(kOr); end != std::string_view::npos; end = rest.find(kOr)) {
    entities.emplace_back(rest.substr(0, end));
    rest.remove_prefix(end + kOr.size());
  }
  entities.emplace_back(rest);
  return entities;
}

bool is_standard_set(std::string_view set) {
  return set.starts_with("Pset_") || set.starts_with("Qto_");
}

std::string property_list_text(const std::vector<PropertyRow>& rows) {
  std::vector<const PropertyRow*> sorted;
  std::set<std::tuple<std::string, std::string, std::string>> listed;
  for (const PropertyRow& row : rows) {
    if (listed.emplace(row.set, row.property, row.on).second) sorted.push_back(&row);
  }
  std::stable_sort(sorted.begin(), sorted.end(), [](const PropertyRow* a, const PropertyRow* b) {
    return std::pair(!is_standard_set(a->set), a->set) < std::pair(!is_standard_set(b->set), b->set);
  });
  std::string text = std::string(kIntroduction) + std::string(kHeader) + "\n";
  for (const PropertyRow* row : sorted) {
    const std::string standard = is_standard_set(row->set) ? std::string()
                                 : row->standard.empty()   ? std::string(kNone)
                                                           : joined(row->standard, "|");
    const std::vector<std::string> fields{
        row->set,    row->property, row->title,
        row->on,     row->measure,  row->unit,
        row->bounds, row->custom,   row->need == PropertyNeed::must ? "must" : "useful",
        standard,    row->meaning};
    text += csv_line(fields);
  }
  return text;
}

}  // namespace panel_dossier
