#include "core/intake/claims/table_confirmations.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <stdexcept>

#include "core/api/support/data_table.h"
#include "core/api/support/iso_date.h"
#include "core/api/support/words.h"
#include "core/intake/document/sha256.h"

namespace panel_dossier {

namespace {

constexpr std::string_view kHead = "table,row,hash,edition,name,role,day";
constexpr std::size_t kFieldsOfConfirmation = 7;

std::optional<DataTable> table_in(const std::filesystem::path& file) {
  try {
    return DataTable(file);
  } catch (const std::runtime_error&) {
    return std::nullopt;
  }
}

std::vector<std::filesystem::path> csv_files(const std::filesystem::path& folder) {
  std::vector<std::filesystem::path> files;
  std::error_code failed;
  for (const auto& entry : std::filesystem::directory_iterator(folder, failed)) {
    if (entry.path().extension() == ".csv") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

class ConfirmationReader {
 public:
  ConfirmationReader(const std::string& file, const std::vector<DataTableRow>& rows, const std::string& today,
                     Diagnostics& diagnostics)
      : file_(file), rows_(rows), today_(today), diagnostics_(diagnostics) {}

  std::vector<TableConfirmation> read(std::string_view bytes) {
    std::vector<TableConfirmation> confirmations;
    bool has_head = false;
    for (std::uint32_t line = 1; !bytes.empty(); ++line) {
      const std::size_t end = std::min(bytes.find('\n'), bytes.size());
      const std::string_view text = trimmed(bytes.substr(0, end));
      bytes.remove_prefix(std::min(end + 1, bytes.size()));
      if (text.empty() || text.front() == '#') continue;
      if (!has_head) {
        has_head = true;
        if (text != kHead) error(line, "the head is not " + std::string(kHead), "write it as the first line");
        continue;
      }
      if (auto confirmation = read_line(text, line)) confirmations.push_back(std::move(*confirmation));
    }
    return confirmations;
  }

 private:
  const std::string& file_;
  const std::vector<DataTableRow>& rows_;
  const std::string& today_;
  Diagnostics& diagnostics_;

  void add(Severity severity, std::uint32_t line, std::string message, std::string advice) {
    diagnostics_.push_back({severity, file_, line, 0, {}, {}, std::move(message), std::move(advice)});
  }

  void error(std::uint32_t line, std::string message, std::string advice) {
    add(Severity::error, line, std::move(message), std::move(advice));
  }

  std::optional<TableConfirmation> read_line(std::string_view text, std::uint32_t line) {
    const auto fields = csv_fields(text);
    if (!fields || fields->size() != kFieldsOfConfirmation || std::count(fields->begin(), fields->end(), "") > 0) {
      error(line, "the line has not the fields " + std::string(kHead), "fill all of them");
      return std::nullopt;
    }
    const auto& f = *fields;
    TableConfirmation confirmation{f[0], f[1], f[2], f[3], f[4], f[5], f[6]};
    const std::string row = "row '" + confirmation.row + "' of '" + confirmation.table + "'";
    if (std::none_of(rows_.begin(), rows_.end(), [&](const DataTableRow& one) { return one.table == f[0]; })) {
      // The plugin that has it may be left out of this run on purpose.
      add(Severity::warning, line, "no plugin of this run has a table '" + confirmation.table + "'",
          "load the plugin, or correct the name");
      return std::nullopt;
    }
    const auto is_row = [&](const DataTableRow& one) { return one.table == f[0] && one.row == f[1]; };
    if (std::none_of(rows_.begin(), rows_.end(), is_row)) {
      error(line, "no plugin has a " + row, "take the names from `panel-dossier plugins --tables`");
      return std::nullopt;
    }
    if (std::none_of(rows_.begin(), rows_.end(),
                     [&](const DataTableRow& one) { return is_row(one) && one.hash == confirmation.hash; })) {
      error(line, row + " has another hash: it has changed since, or was never this one",
            "compare the row with its source anew and take the hash from `panel-dossier plugins --tables`");
      return std::nullopt;
    }
    if (!is_iso_date(confirmation.day) || confirmation.day > today_) {
      error(line, "the day '" + confirmation.day + "' is none that has been", "write the day of the comparison");
      return std::nullopt;
    }
    return confirmation;
  }
};

}  // namespace

std::vector<DataTableRow> table_rows(const std::vector<std::pair<std::string, std::filesystem::path>>& plugin_folders) {
  std::vector<DataTableRow> rows;
  for (const auto& [plugin, folder] : plugin_folders) {
    for (const std::filesystem::path& file : csv_files(folder)) {
      const auto table = table_in(file);
      if (!table) continue;
      for (const std::string& key : table->keys()) {
        rows.push_back({plugin, file.filename().string(), key, table->text(key, "source")->value,
                        to_hex(sha256(table->row_text(key)))});
      }
    }
  }
  return rows;
}

bool is_from_memory(std::string_view source) {
  return source.find("from memory") != std::string_view::npos;
}

std::vector<TableConfirmation> read_table_confirmations(std::string_view bytes, const std::string& display_name,
                                                        const std::vector<DataTableRow>& rows, const std::string& today,
                                                        Diagnostics& diagnostics) {
  return ConfirmationReader(display_name, rows, today, diagnostics).read(bytes);
}

std::string confirmation_form(const std::vector<DataTableRow>& rows,
                              const std::vector<TableConfirmation>& confirmations) {
  std::string form = std::string(kHead) + "\n";
  for (const DataTableRow& row : rows) {
    const auto confirmed =
        std::find_if(confirmations.begin(), confirmations.end(), [&](const TableConfirmation& confirmation) {
          return confirmation.table == row.table && confirmation.row == row.row && confirmation.hash == row.hash;
        });
    const std::vector<std::string> fields{csv_field(row.table), csv_field(row.row), row.hash};
    if (confirmed != confirmations.end()) {
      form += joined({fields[0], fields[1], fields[2], csv_field(confirmed->edition), csv_field(confirmed->name),
                      csv_field(confirmed->role), confirmed->day},
                     ",") +
              "\n";
    } else {
      form += "# " + row.plugin + ", " + (is_from_memory(row.source) ? "to be confirmed: " : "as stated: ") +
              row.source + "\n# " + joined(fields, ",") + ",,,,\n";
    }
  }
  return form;
}

}  // namespace panel_dossier
