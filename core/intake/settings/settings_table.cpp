#include "core/intake/settings/settings_table.h"

#include <algorithm>
#include <iterator>
#include <set>
#include <utility>

#include "core/api/support/words.h"
#include "core/intake/declarations/declaration_reader.h"
#include "core/intake/declarations/evidence_reader.h"
#include "core/intake/document/input_file.h"
#include "core/intake/document/reporter.h"
#include "core/intake/graph/entity_type.h"
#include "core/intake/settings/csv_line.h"

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
      wrong_header_ = *fields != table_.columns;
      if (wrong_header_) error("the header is not " + joined(table_.columns, ","), "write this header first");
    } else if (fields->size() != table_.columns.size()) {
      error(std::to_string(fields->size()) + " fields instead of " + std::to_string(table_.columns.size()),
            "write " + joined(table_.columns, ",") + ", and quotes around a field with a comma");
    } else {
      read_row(*fields);
    }
  }

  void read_row(const std::vector<std::string>& fields) {
    if (auto fault = table_.check(fields)) {
      error(std::move(fault->message), std::move(fault->advice));
    } else if (table_.unique_column && !unique_texts_.insert(fields[*table_.unique_column]).second) {
      const std::size_t column = *table_.unique_column;
      error(table_.columns[column] + " '" + fields[column] + "' has a " + table_.row_word + " already",
            "keep one of them");
    } else {
      store(fields);
    }
  }

  void store(const std::vector<std::string>& fields) {
    const std::string row = table_.name + "." + std::to_string(rows_++) + ".";
    for (std::size_t i = 0; i < fields.size(); ++i) {
      const auto& numbers = table_.number_columns;
      const bool is_number = std::find(numbers.begin(), numbers.end(), table_.columns[i]) != numbers.end();
      const auto number = is_number ? declared_number(fields[i]) : std::nullopt;
      if (number) {
        settings_.set(row + table_.columns[i], *number);
      } else {
        settings_.set(row + table_.columns[i], fields[i]);
      }
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
std::optional<RowFault> refusal(const SettingsTable& table, const Settings& settings,
                                const std::filesystem::path& settings_dir, const std::string& location) {
  if (has_rows(table, settings)) return RowFault{"'" + table.name + "' is given too", "keep one of them"};
  if (!location.ends_with(".csv")) return RowFault{"'" + location + "' does not name a .csv file", "name a CSV file"};
  switch (find_evidence_file(settings_dir, location)) {
    case EvidenceStatus::present: return std::nullopt;
    case EvidenceStatus::missing:
      return RowFault{"'" + location + "' is not there", "put the file beside the settings"};
    case EvidenceStatus::refused: break;
  }
  return RowFault{"'" + location + "' is not inside the folder of the settings; not followed",
                  "copy the file there and give its relative path"};
}

std::optional<SettingsFile> read_file_of(const SettingsTable& table, Settings& settings,
                                         const std::filesystem::path& settings_dir, const std::string& settings_name,
                                         Diagnostics& diagnostics) {
  const std::string key = table.name + "_file";
  if (!settings.all().contains(key)) return std::nullopt;
  const auto refuse = [&](RowFault fault) {
    diagnostics.push_back(
        {Severity::error, settings_name, 0, 0, key, {}, std::move(fault.message), std::move(fault.advice)});
    return std::nullopt;
  };
  const auto location = settings.text(key);
  if (!location) return refuse({"is not a text", "write the name of a CSV file beside the settings"});
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

std::vector<SettingsFile> read_settings_files(Settings& settings, const std::filesystem::path& settings_dir,
                                              const std::string& settings_name, Diagnostics& diagnostics) {
  std::vector<SettingsFile> files;
  for (const SettingsTable* table : {&rates_table(), &carbon_targets_table()}) {
    auto file = read_file_of(*table, settings, settings_dir, settings_name, diagnostics);
    if (file) files.push_back(std::move(*file));
  }
  return files;
}

}  // namespace panel_dossier
