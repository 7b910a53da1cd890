// What is handed over beside the dossier as open data: workbooks and the companion page.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "core/dossier/dossier.h"
#include "core/dossier/handover/inspections.h"
#include "core/pipeline/written_back.h"

namespace panel_dossier {

/// The project and its results as the dossier prints them, and what only laying out the dossier could tell.
struct HandoverContent {
  const DossierContent& dossier;
  std::vector<PanelPage> pages;  ///< in the project's order of panels; empty where no dossier was laid out
  /// Of each panel, in the project's order: when it is to be looked at, by day.
  std::vector<std::vector<DatedInspection>> inspections = {};
  /// Which checks find what a property of the standard says, as the plugins declare it.
  std::vector<WrittenBack> standard_results = {};

  const Project& project() const { return dossier.project; }
  const ResultsDocument& results() const { return dossier.results; }
};

}  // namespace panel_dossier
