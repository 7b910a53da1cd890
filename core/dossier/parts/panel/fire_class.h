// Whether the resistance to fire of a panel is proved: as a part that separates, and as one that carries load.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

/// The two findings on which a class rests; null where nobody makes one. They live as long as the results.
struct FireClass {
  const RecordedFinding* separating = nullptr;
  const RecordedFinding* bearing = nullptr;

  /// The class is passed as a part that separates, and passed, or by a finding not asked for, as one that carries load.
  bool is_proved() const;

  /// `EI 60, R 60`; without the latter where no load is carried. Precondition: it is proved.
  std::string in_words() const;

  /// The titles of what is not shown, or that there is no finding; none where the class is proved.
  std::vector<std::string> not_shown() const;

  /// The worse of both; not assessed where one is not there.
  Verdict verdict() const;
};

/// The documents that both findings read, each once, in their order.
std::vector<const Evidence*> papers_of(const Project& project, const FireClass& shown);

FireClass fire_class_of(const BuildSummary& build, const PanelSummary& panel);

}  // namespace panel_dossier
