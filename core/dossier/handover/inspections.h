// When a panel is to be looked at next, as far as somebody has said so.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/project.h"

namespace panel_dossier {

/// One entry of a calendar of inspections.
struct DatedInspection {
  std::string day;     ///< YYYY-MM-DD
  std::string what;    ///< in words
  std::string source;  ///< who or what says so
};

/// Of each panel, in the project's order, the inspections that the export and the records state; none is worked out.
/// Those of a calendar are added to them by whoever has one.
std::vector<std::vector<DatedInspection>> stated_inspections(const Project& project);

}  // namespace panel_dossier
