#include "core/intake/document/diagnostics.h"

#include <algorithm>

namespace panel_dossier {

std::string to_string(const Diagnostic& diagnostic) {
  std::string text = diagnostic.file;
  if (diagnostic.line != 0) text += ":" + std::to_string(diagnostic.line);
  if (diagnostic.line != 0 && diagnostic.column != 0) text += ":" + std::to_string(diagnostic.column);
  if (!text.empty()) text += ": ";
  text += diagnostic.severity == Severity::error ? "error: " : "warning: ";
  std::string subject = diagnostic.entity;
  if (!subject.empty() && !diagnostic.global_id.empty()) subject += " ";
  subject += diagnostic.global_id;
  if (!subject.empty()) text += subject + ": ";
  text += diagnostic.message;
  if (!diagnostic.advice.empty()) text += "; " + diagnostic.advice;
  return text;
}

bool has_errors(const Diagnostics& diagnostics) {
  return std::any_of(diagnostics.begin(), diagnostics.end(),
                     [](const Diagnostic& d) { return d.severity == Severity::error; });
}

}  // namespace panel_dossier
