#include "core/intake/evidence/evidence_register.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "core/api/support/iso_date.h"
#include "core/api/support/project_file.h"
#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

/// A line a document: far above any project.
constexpr std::size_t kLargestRegister_bytes = std::size_t{4} << 20U;
constexpr const char* kForm = "see schemas/evidence.md for its form";

constexpr std::array<std::pair<const char*, std::string Evidence::*>, 8> kTextColumns{{
    {"number", &Evidence::number},
    {"issuer", &Evidence::issuer},
    {"standard", &Evidence::standard},
    {"subject", &Evidence::subject},
    {"scope", &Evidence::scope},
    {"sponsor", &Evidence::sponsor},
    {"permission", &Evidence::permission},
    {"countries", &Evidence::countries},
}};
constexpr std::array<std::pair<const char*, std::string Evidence::*>, 2> kDayColumns{{
    {"issued", &Evidence::issued},
    {"expires", &Evidence::expires},
}};

constexpr const char* kLocation = "location";  ///< of a library's register

bool is_column(const std::string& name) {
  const auto named = [&name](const auto& entry) { return name == entry.first; };
  return name == "id" || name == "kind" || name == "sha256" ||
         std::any_of(kTextColumns.begin(), kTextColumns.end(), named) ||
         std::any_of(kDayColumns.begin(), kDayColumns.end(), named);
}

std::string at_line(std::size_t line) {
  return std::string(kEvidenceRegister) + " line " + std::to_string(line);
}

bool is_sha256(const std::string& text) {
  return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

/// The bytes of the register; none where there is none or it cannot be read, which is reported.
std::optional<std::string> register_text(const std::filesystem::path& project_dir, Reporter& report) {
  const EvidenceStatus status = find_evidence_file(project_dir, kEvidenceRegister);
  if (status == EvidenceStatus::missing) return std::nullopt;
  const std::string name = std::string("'") + kEvidenceRegister + "'";
  if (status != EvidenceStatus::present) {
    report.file_error(0, 0, name + " leads out of the project folder; not followed", "put the file itself there");
    return std::nullopt;
  }
  auto text = load_at_most(project_dir / kEvidenceRegister, kLargestRegister_bytes);
  if (!text || text->size() > kLargestRegister_bytes) {
    report.file_error(0, 0, name + (text ? " is larger than 4 MiB" : " cannot be read"), kForm);
    return std::nullopt;
  }
  if (const auto fault = encoding_fault(*text)) {
    report.file_error(0, 0, name + ": " + fault->message, "save it in UTF-8");
    return std::nullopt;
  }
  return text;
}

}  // namespace

void state(Evidence& document, std::string Evidence::*field, const std::string& said, const std::string& what,
           const std::string& source) {
  if (said.empty()) return;
  std::string& held = document.*field;
  if (held.empty()) {
    held = said;
  } else if (held != said) {
    document.faults.push_back("its " + what + " is '" + held + "' in the export and '" + said + "' in " + source);
  }
}

void state_day(Evidence& document, std::string Evidence::*field, const std::string& said, const std::string& what,
               const std::string& source) {
  if (said.empty()) return;
  if (!is_iso_date(said)) {
    document.faults.push_back("its " + what + " '" + said + "' is no day YYYY-MM-DD (" + source + ")");
    return;
  }
  state(document, field, said, what, source);
}

void state_kind(Evidence& document, const std::string& said, const std::string& source) {
  if (said.empty()) return;
  const auto kind = parse_evidence_kind(said);
  if (!kind) {
    document.faults.push_back("'" + said + "' is no kind of document (" + source + ")");
  } else if (document.kind == EvidenceKind::not_stated) {
    document.kind = *kind;
  } else if (document.kind != *kind) {
    document.faults.push_back("its kind is '" + std::string(to_string(document.kind)) + "' in the export and '" + said +
                              "' in " + source);
  }
}

EvidenceRegister::EvidenceRegister(const std::filesystem::path& project_dir, Reporter& report) {
  const auto text = register_text(project_dir, report);
  if (!text) return;
  Diagnostics found;
  const auto table = read_input_table(*text, kEvidenceRegister, "evidence", found);
  // The file's own diagnostics become some of the export's.
  Reporter of_register(kEvidenceRegister);
  for (Diagnostic& diagnostic : found) of_register.add(std::move(diagnostic));
  if (table) read_table(*table, of_register);
  for (const Diagnostic& diagnostic : of_register.take()) {
    const std::string line = diagnostic.line == 0 ? "" : " line " + std::to_string(diagnostic.line);
    report.file_error(0, 0, kEvidenceRegister + line + ": " + diagnostic.message, kForm);
  }
}

EvidenceRegister::EvidenceRegister(const InputTable& table, std::filesystem::path folder, Reporter& report)
    : folder_(std::move(folder)) {
  read_table(table, report);
}

void EvidenceRegister::read_table(const InputTable& table, Reporter& report) {
  for (const TableColumn& column : table.columns) {
    if (is_column(column.title) || (!folder_.empty() && column.title == kLocation)) continue;
    report.file_error(table.head_row, column.number, "'" + column.title + "' is no column of the register", kForm);
  }
  const auto id_column = table.column("id");
  if (!id_column) report.file_error(table.head_row, 0, "the column 'id' is missing", kForm);
  if (report.has_errors()) return;
  for (const TableRow& table_row : table.rows) {
    const std::string& id = table_row.cells[*id_column];
    if (id.empty()) {
      report.file_error(table_row.number, 0, "names no document", kForm);
      continue;
    }
    Row row{folder_.empty() ? at_line(table_row.number) : place_of(table, table_row),
            {},
            table_origin(table, table_row, "id"),
            false};
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      if (!table_row.cells[i].empty()) row.fields[table.columns[i].title] = table_row.cells[i];
    }
    if (!rows_by_id_.emplace(id, std::move(row)).second) {
      report.file_error(table_row.number, 0, "the document '" + id + "' stands twice", kForm);
    }
  }
}

void EvidenceRegister::complete(Evidence& document) {
  const auto found = rows_by_id_.find(document.id);
  if (found == rows_by_id_.end()) return;
  Row& row = found->second;
  row.used = true;
  if (const auto location = row.fields.find(kLocation); location != row.fields.end() && document.location.empty()) {
    document.location = location->second;
    document.folder = folder_.string();
  }
  const auto field = [&row](const char* column) {
    const auto at = row.fields.find(column);
    return at == row.fields.end() ? std::string() : at->second;
  };
  state_kind(document, lower_case(field("kind")), row.line);
  for (const auto& [column, member] : kTextColumns) state(document, member, field(column), column, row.line);
  for (const auto& [column, member] : kDayColumns) {
    state_day(document, member, field(column), std::string("day '") + column + "'", row.line);
  }
  const std::string sha256 = lower_case(field("sha256"));
  if (!sha256.empty() && !is_sha256(sha256)) {
    document.faults.push_back("its sha256 is not of 64 hexadecimal digits (" + row.line + ")");
  } else {
    state(document, &Evidence::sha256, sha256, "sha256", row.line);
  }
}

std::optional<Evidence> EvidenceRegister::document(std::string_view id) {
  const auto found = rows_by_id_.find(id);
  if (found == rows_by_id_.end()) return std::nullopt;
  Evidence document;
  document.id = found->first;
  document.origin = found->second.origin;
  complete(document);
  document.name = document.subject;
  return document;
}

std::size_t EvidenceRegister::used() const {
  return static_cast<std::size_t>(
      std::count_if(rows_by_id_.begin(), rows_by_id_.end(), [](const auto& entry) { return entry.second.used; }));
}

void EvidenceRegister::warn_of_unused(Reporter& report) const {
  for (const auto& [id, row] : rows_by_id_) {
    if (row.used) continue;
    report.file_warning(row.line + ": the export has no document '" + id + "'; not used",
                        "add an IfcDocumentReference with this Identification, or take the line away");
  }
}

}  // namespace panel_dossier
