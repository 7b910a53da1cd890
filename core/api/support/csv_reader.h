// The records of a text of separated values, one after the other.
#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier {

struct CsvRecord {
  std::vector<std::string> fields;
  std::size_t line = 0;  ///< on which it begins, from 1
};

/// What breaks the form of the file, and on which line.
class CsvFault : public std::runtime_error {
 public:
  CsvFault(std::size_t line, const std::string& what) : std::runtime_error(what), line_(line) {}
  std::size_t line() const { return line_; }

 private:
  std::size_t line_;
};

/// Walks a UTF-8 text once by RFC 4180: a quoted field may hold separators, doubled quotes and line breaks. Lines end
/// with CR LF, LF or CR; empty lines and lines that begin with `#` are passed over, as is a byte order mark. The text
/// must outlive the reader.
class CsvReader {
 public:
  explicit CsvReader(std::string_view text, char separator = ',');

  /// The next record; false at the end. Throws CsvFault, after which nothing more can be read.
  bool next(CsvRecord& record);

 private:
  std::string_view text_;
  char separator_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;

  bool at_line_end() const;
  void end_line();
  bool skipped_line();
  std::string field();
  std::string plain_field();
  std::string quoted_field();
};

}  // namespace panel_dossier
