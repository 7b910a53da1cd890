// The rows of a COBie delivery before they are written, and the names by which rows refer to each other.
#pragma once

#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/api/finding/finding.h"
#include "core/dossier/handover/cobie_form.h"

namespace panel_dossier {

/// A name that is not among those taken, and is from now on: what is wanted, on one line, without the commas that part
/// names in a list, of at most 255 bytes, with a number behind where it is taken. `fallback` where nothing is wanted.
std::string free_name(std::set<std::string>& taken, std::string_view wanted, std::string_view fallback);

/// One sheet's rows; each has a cell for every column, `n/a` until it is set.
class CobieTable {
 public:
  explicit CobieTable(const CobieSheet& form) : form_(&form) {}

  const CobieSheet& form() const { return *form_; }
  const std::vector<std::vector<Value>>& rows() const { return rows_; }

  /// A new row with these cells by column; empty texts stay `n/a`. Throws std::logic_error for a column that the form
  /// does not have.
  void add(const std::vector<std::pair<std::string_view, Value>>& cells);
  /// Text of a cell; a number in its shortest form.
  std::string text(std::size_t row, std::string_view column) const;
  std::size_t column_of(std::string_view name) const;

 private:
  const CobieSheet* form_;
  std::vector<std::vector<Value>> rows_;
};

/// All sheets, and which names are taken.
class CobieBook {
 public:
  CobieBook();

  CobieTable& sheet(std::string_view name);
  const CobieTable& sheet(std::string_view name) const;
  const std::vector<CobieTable>& sheets() const { return tables_; }

  /// `free_name` among the names that this gave for the sheet.
  std::string new_name(std::string_view sheet, std::string_view wanted, std::string_view fallback);

  /// What the rows of the sheet have under `CreatedBy`, `CreatedOn` and `ExtSystem` unless they say otherwise.
  void set_creator(std::string email, std::string time, std::string system);
  /// `CobieTable::add` with those, and with texts cut to what a cell can hold.
  void add(std::string_view sheet, std::vector<std::pair<std::string_view, Value>> cells);

 private:
  std::vector<CobieTable> tables_;
  std::map<std::string, std::set<std::string>, std::less<>> names_;
  std::string email_;
  std::string time_;
  std::string system_;
};

/// The names as one cell, parted by commas, in as many cells as the length of a cell asks for.
std::vector<std::string> name_lists(const std::vector<std::string>& names);

}  // namespace panel_dossier
