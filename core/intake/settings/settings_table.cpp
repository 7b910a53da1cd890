#include "core/intake/settings/settings_table.h"

#include <algorithm>
#include <iterator>
#include <set>
#include <utility>

#include "core/api/support/project_file.h"
#include "core/api/support/words.h"
#include "core/intake/document/diagnostics.h"
#include "core/intake/document/input_file.h"

namespace panel_dossier {

namespace {

class TableReader {
 public:
  TableReader(const SettingsTable& table, Settings& settings, Reporter& report)
      : table_(table), settings_(settings), report_(report) {}

  void read(std::string_view text) {
    constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
    if (text.substr(0, kByteOrderMark.size()) == kByteOrderMark) text.remove_prefix(kByteOrderMark.size());
    while (!text.empty() && !wrong_header_) {
      const std::size_t end = text.find('\n');
      ++line_;
      read_line(trimmed(text.substr(0, end)));
      text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    if (rows_ == 0 && !report_.has_errors()) {
      report_.file_error(0, 0, "the file gives no " + table_.row_word, "add a row for each, or leave the setting out");
    }
  }

 private:
  const SettingsTable& table_;
  Settings& settings_;
  Reporter& report_;
  std::uint32_t line_ = 0;
  std::size_t rows_ = 0;
  bool has_header_ = false;
  bool wrong_header_ = false;
  std::set<std::string> unique_texts_;

  void error(std::string message, std::string advice) {
    report_.file_error(line_, 0, std::move(message), std::move(advice));
  }

  void read_line(std::string_view line) {
    if (line.empty() || line.front() == '#') return;
    const auto fields = csv_fields(line);
    if (!fields) {
      error("a quoted field is not closed", "close the quote on the same line");
    } else if (!has_header_) {
      has_header_ = true;
      wrong_header_ = *fields != column_names();
      if (wrong_header_) error("the header is not " + joined(column_names(), ","), "write this header first");
    } else if (fields->size() != table_.columns.size()) {
      error(std::to_string(fields->size()) + " fields instead of " + std::to_string(table_.columns.size()),
            "write " + joined(column_names(), ",") + ", and quotes around a field with a comma");
    } else {
      read_row(*fields);
    }
  }

  std::vector<std::string> column_names() const {
    std::vector<std::string> names;
    for (const SettingsColumn& column : table_.columns) names.push_back(column.name);
    return names;
  }

  void read_row(const std::vector<std::string>& fields) {
    for (std::size_t i = 0; i < fields.size(); ++i) {
      if (auto fault = fault_of(table_.columns[i], fields[i])) {
        return error(table_.columns[i].name + ": " + fault->message, std::move(fault->advice));
      }
    }
    if (table_.unique_column && !unique_texts_.insert(fields[*table_.unique_column]).second) {
      const std::size_t column = *table_.unique_column;
      return error(table_.columns[column].name + " '" + fields[column] + "' has a " + table_.row_word + " already",
                   "keep one of them");
    }
    store(fields);
  }

  static std::optional<ValueFault> fault_of(const SettingsColumn& column, const std::string& field) {
    if (!field.empty()) return column.rule.fault_of(value_of(column, field));
    if (!column.is_required) return std::nullopt;
    return ValueFault{"the field is empty", "write " + column.rule.wanted()};
  }

  /// The field as its column's kind of value, or as text where it is none.
  static Settings::Value value_of(const SettingsColumn& column, const std::string& field) {
    const std::vector<Settings::Value>& choices = column.rule.choices;
    const bool number = column.rule.kind == ValueKind::number || column.rule.kind == ValueKind::whole_number ||
                        (!choices.empty() && std::holds_alternative<double>(choices.front()));
    if (number) {
      if (const auto value = parse_decimal(field)) return *value;
    }
    if (column.rule.kind == ValueKind::logical && (field == "true" || field == "false")) return field == "true";
    return field;
  }

  /// An empty field is a setting left out.
  void store(const std::vector<std::string>& fields) {
    const std::string row = table_.name + "." + std::to_string(rows_++) + ".";
    for (std::size_t i = 0; i < fields.size(); ++i) {
      if (!fields[i].empty()) settings_.set(row + table_.columns[i].name, value_of(table_.columns[i], fields[i]));
    }
    settings_.set(row + "line", static_cast<double>(line_));
  }
};

bool has_rows(const SettingsTable& table, const Settings& settings) {
  const std::string prefix = table.name + ".";
  const auto first = settings.all().lower_bound(prefix);
  return first != settings.all().end() && first->first.starts_with(prefix);
}

/// Why the file that the setting names is not read; none when it can be.
std::optional<ValueFault> refusal(const SettingsTable& table, const Settings& settings,
                                  const std::filesystem::path& settings_dir, const std::string& location) {
  if (has_rows(table, settings)) return ValueFault{"'" + table.name + "' is given too", "keep one of them"};
  if (!location.ends_with(".csv")) return ValueFault{"'" + location + "' does not name a .csv file", "name a CSV file"};
  const EvidenceStatus status = find_evidence_file(settings_dir, location);
  if (status == EvidenceStatus::present) return std::nullopt;
  if (status == EvidenceStatus::missing) {
    return ValueFault{"'" + location + "' is not there", "put the file beside the settings"};
  }
  return ValueFault{"'" + location + "' is not inside the folder of the settings; not followed",
                    "copy the file there and give its relative path"};
}

std::optional<SettingsFile> read_file_of(const SettingsTable& table, Settings& settings,
                                         const std::filesystem::path& settings_dir, const std::string& settings_name,
                                         Diagnostics& diagnostics) {
  const std::string key = table.name + "_file";
  const auto location = settings.text(key);
  if (!location) return std::nullopt;
  const auto refuse = [&](ValueFault fault) {
    diagnostics.push_back(
        {Severity::error, settings_name, 0, 0, key, {}, std::move(fault.message), std::move(fault.advice)});
    return std::nullopt;
  };
  if (auto fault = refusal(table, settings, settings_dir, location->value)) return refuse(std::move(*fault));
  auto bytes = load_at_most(settings_dir / location->value, kLargestSettingsFile_bytes);
  if (!bytes) return refuse({"'" + location->value + "' cannot be read", "check its permissions"});
  if (bytes->size() > kLargestSettingsFile_bytes) {
    return refuse({"'" + location->value + "' is larger than 4 MiB", "keep the rows of this project only"});
  }
  read_settings_table(table, settings, *bytes, (settings_dir / location->value).string(), diagnostics);
  return SettingsFile{location->value, std::move(*bytes), table.description};
}

}  // namespace

void read_settings_table(const SettingsTable& table, Settings& settings, std::string_view bytes,
                         const std::string& display_name, Diagnostics& diagnostics) {
  Reporter report(display_name);
  report.set_lines(LineTable(bytes));
  if (check_encoding(bytes, report)) TableReader(table, settings, report).read(bytes);
  Diagnostics found = report.take();
  std::move(found.begin(), found.end(), std::back_inserter(diagnostics));
}

std::vector<SettingsFile> read_settings_files(const std::vector<SettingsTable>& tables, Settings& settings,
                                              const std::filesystem::path& settings_dir,
                                              const std::string& settings_name, Diagnostics& diagnostics) {
  std::vector<SettingsFile> files;
  for (const SettingsTable& table : tables) {
    auto file = read_file_of(table, settings, settings_dir, settings_name, diagnostics);
    if (file) files.push_back(std::move(*file));
  }
  return files;
}

}  // namespace panel_dossier
