// An .xlsx workbook (ISO/IEC 29500-1, SpreadsheetML): its sheets by name, and the cells of one.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/intake/tables/table_grid.h"
#include "core/intake/tables/workbook_package.h"
#include "core/intake/tables/workbook_sheet.h"

namespace panel_dossier {

/// The bytes and the reporter must outlive it. Belongs to one thread.
class Workbook {
 public:
  /// Reports what is no workbook.
  Workbook(std::string_view bytes, Reporter& report);

  /// In the order of the workbook; empty when it cannot be read.
  const std::vector<std::string>& sheets() const { return sheet_names_; }

  /// Reads the cells of a sheet: a number as its shortest decimal, a number with the format of a date as its day, a
  /// percentage with its sign, a logical as `true` or `false`. A cell with an error, a formula without a value, a day
  /// that cannot be and cells that are merged are reported at their place.
  /// Precondition: `sheet` is one of `sheets()`.
  void read(const std::string& sheet, TableGrid& grid);

 private:
  Reporter& report_;
  WorkbookPackage package_;
  std::vector<std::string> sheet_names_;
  std::vector<std::string> sheet_parts_;
  std::string styles_part_;  ///< empty where the workbook has none
  std::string texts_part_;
  bool has_read_shared_ = false;
  WorkbookContent content_;

  void read_index(const std::string& workbook_part);
  void read_formats();
  void read_texts();
};

}  // namespace panel_dossier
