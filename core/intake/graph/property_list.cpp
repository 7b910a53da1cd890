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

constexpr std::string_view kHeader = "set,property,on,measure,unit,range,usual,meaning";
constexpr std::size_t kFieldsOfProperty = 8;
// The lists in dossiers from before bounds were stated.
constexpr std::string_view kOlderHeader = "set,property,on,measure,unit,meaning";
constexpr std::size_t kOlderFields = 6;
constexpr const char* kReinstall = "reinstall the program with its schemas and plugins";
constexpr std::string_view kOurPrefix = "Panel_";

constexpr std::string_view kIntroduction =
    "# The property sets that the program and its plugins read, put together from schemas/model_properties.csv and "
    "the\n"
    "# properties.csv of each plugin. Sets with the prefix Pset_ or Qto_ are the standard's; those with Panel_ are "
    "ours.\n"
    "# on: entity the set hangs on (through its occurrence, its type, or material properties). measure: IFC measure "
    "type.\n"
    "# unit: the unit of the value inside the program; the export's own unit assignment or property unit is "
    "converted.\n"
    "# A value of a measure type with another unit, or of a plain number where a unit is wanted, is reported and not "
    "read.\n"
    "# range: a number outside of it cannot be, and the export is refused; of a text, the words it may be. usual: a "
    "number\n"
    "# outside of it is not used unless the settings confirm it. Both are common practice, wide enough for any product "
    "in use;\n"
    "# schemas/material_kinds.csv says more closely what is usual of a kind of material.\n";

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

void read_list(const PropertyListText& list, Reporter& report, std::vector<PropertyRow>& rows) {
  std::istringstream stream(list.text);
  bool has_header = false;
  bool is_older = false;
  std::size_t number = 0;
  for (std::string line; std::getline(stream, line);) {
    ++number;
    const std::string_view text = trimmed(line);
    if (text.empty() || text.front() == '#') continue;
    if (!std::exchange(has_header, true)) {
      is_older = text == kOlderHeader;
      continue;
    }
    const std::string place = list.name + ":" + std::to_string(number);
    auto fields = csv_fields(text);
    if (fields && is_older && fields->size() == kOlderFields) fields->insert(fields->end() - 1, 2, std::string());
    if (!fields || fields->size() != kFieldsOfProperty) {
      report.file_error(0, 0, "'" + place + "' has not the fields " + std::string(kHeader),
                        "mend the line, with quotes around a field with a comma");
      continue;
    }
    auto& f = *fields;
    PropertyRow row{std::move(f[0]), std::move(f[1]), std::move(f[2]),
                    std::move(f[3]), std::move(f[4]), std::move(f[5]),
                    std::move(f[6]), std::move(f[7]), place};
    if (const std::string wrong = is_older ? std::string() : read_bounds(row); !wrong.empty()) {
      report.file_error(0, 0, joined({"'", place, "' ", wrong}, ""), "mend the line");
      continue;
    }
    rows.push_back(std::move(row));
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

std::string csv_field(const std::string& text) {
  if (text.find_first_of(",\"") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
  return quoted + "\"";
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
  return rows;
}

std::string property_list_text(const std::vector<PropertyRow>& rows) {
  std::vector<const PropertyRow*> sorted;
  std::set<std::tuple<std::string, std::string, std::string>> listed;
  for (const PropertyRow& row : rows) {
    if (listed.emplace(row.set, row.property, row.on).second) sorted.push_back(&row);
  }
  std::stable_sort(sorted.begin(), sorted.end(), [](const PropertyRow* a, const PropertyRow* b) {
    return std::pair(a->set.starts_with(kOurPrefix), a->set) < std::pair(b->set.starts_with(kOurPrefix), b->set);
  });
  std::string text = std::string(kIntroduction) + std::string(kHeader) + "\n";
  for (const PropertyRow* row : sorted) {
    text += joined({csv_field(row->set), csv_field(row->property), csv_field(row->on), csv_field(row->measure),
                    csv_field(row->unit), csv_field(row->bounds), csv_field(row->custom), csv_field(row->meaning)},
                   ",") +
            "\n";
  }
  return text;
}

}  // namespace panel_dossier
