// What the intake found wrong, as facts; the command line prints them.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

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

}  // namespace panel_dossier
