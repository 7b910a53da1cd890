// What open findings ask for and neither the export nor the settings hold, so that somebody can write it down.
#pragma once

#include <cstddef>
#include <set>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/intake/graph/property_list.h"
#include "core/pipeline/run.h"

namespace panel_dossier {

/// A property or setting that the reasons of open findings name and that is absent.
struct Gap {
  enum class Source { property, setting };

  Source source = Source::property;
  std::string name;             ///< `Set.Property`, or the dotted key of a setting
  const PropertyRow* property;  ///< its line of the list of properties; null for a setting. Lives as long as the rows
  /// Names of the materials, windows or parts that lack it; marks of panels for what hangs on a panel; empty for a
  /// setting and for what hangs on the project or a building.
  std::set<std::string> subjects;
  std::set<std::string> disciplines;  ///< ids of the plugins whose findings name it
  std::set<std::size_t> panels;       ///< indices into Project::panels whose findings name it
  bool whole_project = false;         ///< a finding of the project names it
};

/// Sorted by source, settings last, then by name. Reasons name each input that a check misses in its own words (`Set.
/// Property`, the key of a setting), which every plugin is tried for; a name that no check declares to read is passed
/// over, and so is one that is there and only named.
std::vector<Gap> gaps_of(const Project& project, const Settings& settings, const Results& results,
                         const std::vector<PropertyRow>& rows);

/// How a discipline stands: what the command line says in a line of its own.
struct DisciplineState {
  std::string id;
  std::string title;
  std::size_t findings = 0;  ///< of panels and project
  std::size_t open = 0;      ///< of them evidence needed or not assessed
  std::size_t figures = 0;   ///< of them with a value
};

/// In the order of `Results::plugins`.
std::vector<DisciplineState> discipline_states(const Results& results);

}  // namespace panel_dossier
