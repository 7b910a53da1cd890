// Where each duty of a country stands: met, open with what is missing, or why it does not apply.
#pragma once

#include <string>

#include "core/dossier/guidance/advice.h"
#include "core/dossier/guidance/duty_tables.h"
#include "core/dossier/guidance/subjects.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

enum class DutyState { met, unmet, not_applicable, left_out };

struct DutyLine {
  DutyRow duty;
  DutyState state = DutyState::unmet;
  std::string what;  ///< what is missing, or why it does not apply; empty where it is met
};

/// `project` is the subject of the project with the facts that come after sentences. A duty of which it cannot be told
/// whether it applies is unmet.
DutyLine duty_line(const DutyRow& duty, const Subject& project, const FactSource& facts, const BuildSummary& build);

}  // namespace panel_dossier
