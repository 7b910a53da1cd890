// What a program said once and must go on saying: a table of texts and digests of texts that lies beside the tests.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/api/finding/finding.h"

namespace panel_dossier::testing {

/// Holds texts against a CSV file. A difference is wanted or not: only a person can tell. Where it is wanted,
/// `.ci/hold NAME` runs the test program NAME_test with PANEL_DOSSIER_HOLD=1, and the file is written anew; the
/// difference of the file then shows in review what a change has moved.
class HeldFile {
 public:
  /// `keys` name a line, `plain` columns hold their text and `digests` eight digits of its SHA-256 (none of an empty
  /// text): enough to notice any change, and a file that people can still read.
  HeldFile(std::filesystem::path file, std::vector<std::string> keys, std::vector<std::string> plain,
           std::vector<std::string> digests);

  /// One text a column, in the order of the columns; no key twice.
  void add(std::vector<std::string> texts);

  /// What differs from the file, one text each: the line, the column, what was held, the new text in full. Finds
  /// nothing where there is no such file yet, as in a discipline that has just been begun; writes it when
  /// PANEL_DOSSIER_HOLD is set. `name` is that of the test program without `_test`.
  std::vector<std::string> faults(const std::string& name) const;

 private:
  std::filesystem::path file_;
  std::size_t keys_;
  std::size_t plain_;                            ///< keys included
  std::vector<std::string> columns_;             ///< of all three sorts
  std::vector<std::vector<std::string>> lines_;  ///< as they stand in the file
  std::vector<std::vector<std::string>> texts_;  ///< in full

  std::string key_of(const std::vector<std::string>& line) const;
  void write() const;
};

/// A number to six significant digits, so that no compiler's last digit shows; 0 for all that is smaller than 1e-12.
std::string held_number(double value);
/// A number so, a text as it is, nothing as an empty text.
std::string held_value(const Value& value);
/// The texts as one line with ` | ` between them.
std::string held_line(const std::vector<std::string>& texts);

}  // namespace panel_dossier::testing
