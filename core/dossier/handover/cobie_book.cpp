#include "core/dossier/handover/cobie_book.h"

#include <algorithm>
#include <stdexcept>
#include <utility>
#include <variant>

#include "core/api/support/text_encoding.h"
#include "core/api/support/words.h"
#include "core/dossier/handover/workbook_file.h"

namespace panel_dossier {

namespace {

constexpr std::size_t kLongestName = 255;

/// Whole characters of UTF-8 in at most that many bytes.
std::string first_bytes(std::string text, std::size_t most) {
  if (text.size() <= most) return text;
  while (most > 0 && (static_cast<unsigned char>(text[most]) & 0xC0U) == 0x80U) --most;
  text.resize(most);
  return text;
}

bool is_empty_text(const Value& value) {
  const auto* text = std::get_if<std::string>(&value);
  return std::holds_alternative<std::monostate>(value) || (text != nullptr && trimmed(*text).empty());
}

}  // namespace

std::string free_name(std::set<std::string>& taken, std::string_view wanted, std::string_view fallback) {
  std::string name = visible_text(trimmed(wanted));
  std::replace(name.begin(), name.end(), ',', ';');
  std::replace(name.begin(), name.end(), '\t', ' ');
  name = std::string(trimmed(first_bytes(std::move(name), kLongestName)));
  if (name.empty() || name == kNotApplicable) name = fallback;
  std::string unique = name;
  for (int number = 2; !taken.insert(unique).second; ++number) {
    const std::string suffix = " (" + std::to_string(number) + ")";
    unique = first_bytes(name, kLongestName - suffix.size()) + suffix;
  }
  return unique;
}

std::size_t CobieTable::column_of(std::string_view name) const {
  const auto found = std::find_if(form_->columns.begin(), form_->columns.end(),
                                  [name](const CobieColumn& column) { return column.name == name; });
  if (found == form_->columns.end()) {
    throw std::logic_error("the sheet " + form_->name + " has no column '" + std::string(name) + "'");
  }
  return static_cast<std::size_t>(found - form_->columns.begin());
}

void CobieTable::add(const std::vector<std::pair<std::string_view, Value>>& cells) {
  std::vector<Value> row(form_->columns.size(), Value(std::string(kNotApplicable)));
  for (const auto& [name, value] : cells) {
    if (!is_empty_text(value)) row[column_of(name)] = value;
  }
  rows_.push_back(std::move(row));
}

std::string CobieTable::text(std::size_t row, std::string_view column) const {
  const Value& value = rows_.at(row)[column_of(column)];
  if (const auto* number = std::get_if<double>(&value)) return shortest_text(*number);
  return std::get<std::string>(value);
}

CobieBook::CobieBook() {
  for (const CobieSheet& form : cobie_sheets()) tables_.emplace_back(form);
}

CobieTable& CobieBook::sheet(std::string_view name) {
  const auto found = std::find_if(tables_.begin(), tables_.end(),
                                  [name](const CobieTable& table) { return table.form().name == name; });
  if (found == tables_.end()) throw std::logic_error("COBie has no sheet '" + std::string(name) + "'");
  return *found;
}

const CobieTable& CobieBook::sheet(std::string_view name) const {
  const auto found = std::find_if(tables_.begin(), tables_.end(),
                                  [name](const CobieTable& table) { return table.form().name == name; });
  if (found == tables_.end()) throw std::logic_error("COBie has no sheet '" + std::string(name) + "'");
  return *found;
}

std::string CobieBook::new_name(std::string_view sheet, std::string_view wanted, std::string_view fallback) {
  return free_name(names_[std::string(sheet)], wanted, fallback);
}

void CobieBook::set_creator(std::string email, std::string time, std::string system) {
  email_ = std::move(email);
  time_ = std::move(time);
  system_ = std::move(system);
}

void CobieBook::add(std::string_view sheet_name, std::vector<std::pair<std::string_view, Value>> cells) {
  CobieTable& table = sheet(sheet_name);
  const auto& columns = table.form().columns;
  const bool is_external = std::any_of(columns.begin(), columns.end(),
                                       [](const CobieColumn& column) { return column.name == "ExternalSystem"; });
  for (auto& [name, value] : cells) {
    if (auto* text = std::get_if<std::string>(&value)) *text = cut_to_cell(std::move(*text));
  }
  cells.emplace_back("CreatedBy", email_);
  cells.emplace_back("CreatedOn", time_);
  cells.emplace_back(is_external ? "ExternalSystem" : "ExtSystem", system_);
  table.add(cells);
}

std::vector<std::string> name_lists(const std::vector<std::string>& names) {
  std::vector<std::string> lists;
  for (const std::string& name : names) {
    if (lists.empty() || lists.back().size() + name.size() + 1 > WorkbookFile::kLongestText) {
      lists.push_back(name);
    } else {
      lists.back().append(",").append(name);
    }
  }
  return lists;
}

}  // namespace panel_dossier
