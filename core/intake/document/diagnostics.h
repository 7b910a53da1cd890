// What the intake found wrong, as facts that the command line prints; the only place that builds positioned messages.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/api/model/origin.h"
#include "core/api/support/line_table.h"
#include "core/intake/graph/element.h"

namespace panel_dossier {

enum class Severity {
  error,    ///< the input is refused, exit status 2
  warning,  ///< the input is read; `message` says what was done about it
};

struct Diagnostic {
  Severity severity = Severity::error;
  std::string file;
  std::uint32_t line = 0;    ///< from 1; 0 when the whole file is meant
  std::uint32_t column = 0;  ///< from 1; 0 when unknown
  std::string entity;        ///< IFC entity or settings key; may be empty
  std::string global_id;     ///< may be empty
  std::string message;       ///< what is wrong: lower case, names in single quotes, no full stop
  std::string advice;        ///< what to do; may be empty
};

using Diagnostics = std::vector<Diagnostic>;

/// `FILE:LINE:COLUMN: error: ENTITY GLOBALID: message; advice`, without the fields that are unknown.
std::string to_string(const Diagnostic& diagnostic);

bool has_errors(const Diagnostics& diagnostics);

/// Where a value stands, for a reason: `line 12 of the export`, `records/as_built.csv, row 5`; empty where it tells no
/// line.
std::string place_in_words(const Origin& origin);
/// The row of a table that a value stands in; 0 where it stands in none.
std::uint32_t row_number(const Origin& origin);

/// Belongs to one run on one thread.
class Reporter {
 public:
  explicit Reporter(std::string file) : file_(std::move(file)) {}

  void set_lines(LineTable lines) { lines_ = std::make_shared<const LineTable>(std::move(lines)); }
  /// Another one for the same file, that has nothing to report yet. For a thread of its own.
  Reporter for_the_same_file() const;
  /// Takes over what another one for the same file has to report, but for what has been said before.
  void take_over(Reporter other);

  /// About an element: line, entity and GlobalId are those of it or of its nearest owner.
  void error(const Element& at, std::string message, std::string advice = {});
  void warning(const Element& at, std::string message, std::string advice = {});
  /// About the file; line 0 when the whole of it is meant.
  void file_error(std::uint32_t line, std::uint32_t column, std::string message, std::string advice = {});
  void file_warning(std::string message, std::string advice = {});
  /// About a byte of the file.
  void error_at_offset(std::size_t offset, std::string message, std::string advice = {});
  /// A diagnostic made elsewhere; the file name is filled in here.
  void add(Diagnostic diagnostic);
  /// The same for a breach of the schema; it gives way to a finding about the same entity and line, which says more.
  void add_schema_breach(Diagnostic diagnostic);
  /// Errors that were counted and not kept, as there were too many.
  void add_unlisted(std::size_t count);

  /// The origin of a value read from an element.
  Origin origin(const Element& at, std::string_view property = {}) const;
  std::uint32_t line(const Element& at) const;

  bool has_errors() const { return errors_ != 0; }
  const std::string& file() const { return file_; }

  /// Everything so far, in file order, with a closing line when there was more than can be listed.
  Diagnostics take();

 private:
  std::string file_;
  std::shared_ptr<const LineTable> lines_ = std::make_shared<const LineTable>();
  // Of the origins: names, which are few, and the GlobalIds used last, which come many times in a row.
  mutable SharedTexts texts_;
  mutable std::array<SharedText, 64> recent_ids_;
  Diagnostics diagnostics_;
  Diagnostics schema_breaches_;
  std::size_t errors_ = 0;
  std::size_t unlisted_ = 0;

  SharedText shared_id(std::string_view id) const;
  void add_schema_breaches();
  void add_at(Severity severity, const Element& at, std::string message, std::string advice);
};

}  // namespace panel_dossier
