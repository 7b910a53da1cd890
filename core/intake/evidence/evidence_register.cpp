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

bool is_column(const std::string& name) {
  const auto named = [&name](const auto& entry) { return name == entry.first; };
  return name == "id" || name == "kind" || name == "sha256" ||
         std::any_of(kTextColumns.begin(), kTextColumns.end(), named) ||
         std::any_of(kDayColumns.begin(), kDayColumns.end(), named);
}

std::string at_line(std::size_t line) {
  return std::string(kEvidenceRegister) + " line " + std::to_string(line);
}

/// What is wrong with the header; empty when nothing is.
std::string header_fault(const std::vector<std::string>& columns) {
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (!is_column(columns[i])) return "'" + columns[i] + "' is no column of the register";
    if (std::find(columns.begin(), columns.begin() + static_cast<std::ptrdiff_t>(i), columns[i]) !=
        columns.begin() + static_cast<std::ptrdiff_t>(i)) {
      return "the column '" + columns[i] + "' stands twice";
    }
  }
  return std::find(columns.begin(), columns.end(), "id") == columns.end() ? "the column 'id' is missing" : "";
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
  if (const auto text = register_text(project_dir, report)) read_rows(*text, report);
}

void EvidenceRegister::read_rows(std::string_view text, Reporter& report) {
  constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
  if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
  std::vector<std::string> columns;
  std::size_t line = 0;
  while (!text.empty()) {
    const std::size_t end = text.find('\n');
    const std::string_view row_text = trimmed(text.substr(0, end));
    text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
    ++line;
    if (row_text.empty() || row_text.front() == '#') continue;
    const auto refuse = [&](const std::string& what) { report.file_error(0, 0, at_line(line) + ": " + what, kForm); };
    const auto fields = csv_fields(row_text);
    if (!fields) return refuse("a quote is not closed");
    if (columns.empty()) {
      if (const std::string fault = header_fault(*fields); !fault.empty()) return refuse(fault);
      columns = *fields;
      continue;
    }
    if (fields->size() != columns.size()) {
      refuse("has " + std::to_string(fields->size()) + " fields, the header has " + std::to_string(columns.size()));
      continue;
    }
    Row row{at_line(line), {}, false};
    for (std::size_t i = 0; i < columns.size(); ++i) {
      if (!(*fields)[i].empty()) row.fields[columns[i]] = (*fields)[i];
    }
    const auto id = row.fields.find("id");
    if (id == row.fields.end()) {
      refuse("names no document");
      continue;
    }
    const std::string name = id->second;
    if (!rows_by_id_.emplace(name, std::move(row)).second) refuse("the document '" + name + "' stands twice");
  }
}

void EvidenceRegister::complete(Evidence& document) {
  const auto found = rows_by_id_.find(document.id);
  if (found == rows_by_id_.end()) return;
  Row& row = found->second;
  row.used = true;
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

void EvidenceRegister::warn_of_unused(Reporter& report) const {
  for (const auto& [id, row] : rows_by_id_) {
    if (row.used) continue;
    report.file_warning(row.line + ": the export has no document '" + id + "'; not used",
                        "add an IfcDocumentReference with this Identification, or take the line away");
  }
}

}  // namespace panel_dossier
