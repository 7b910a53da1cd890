// How many findings of a build reached each verdict.
#pragma once

#include <cstddef>
#include <string>

#include "core/trace/results_document.h"

namespace panel_dossier {

struct VerdictTotals {
  std::size_t pass = 0;
  std::size_t fail = 0;
  std::size_t evidence_needed = 0;
  std::size_t not_assessed = 0;
  std::size_t information = 0;
};

/// Over all panels and the project.
VerdictTotals verdict_totals(const ResultsDocument& document);

/// `12 pass, 1 fail, 0 evidence needed, 3 not assessed, 4 information`.
std::string to_string(const VerdictTotals& totals);

}  // namespace panel_dossier
