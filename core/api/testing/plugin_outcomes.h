// One whole run of a plugin over a project in memory.
#pragma once

#include <memory>
#include <string_view>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"

namespace panel_dossier::testing {

struct PluginOutcomes {
  std::vector<CheckOutcome> panels;  ///< in the project's panel order
  CheckOutcome project;
};

/// The plugin's run. Passes on what the plugin throws, and throws std::runtime_error when it gives none.
std::unique_ptr<PluginRun> prepared(const Plugin& plugin, const Project& project, const Settings& settings);

/// Prepares a run, checks every panel in order and then the project, as the program does but in one thread. Passes on
/// what the plugin throws.
PluginOutcomes outcomes_of(const Plugin& plugin, const Project& project, const Settings& settings);

/// The declaration of that check, or null.
const CheckDeclaration* find_declaration(const Plugin& plugin, std::string_view check);
/// The finding of that check, or null.
const Finding* find_finding(const CheckOutcome& outcome, std::string_view check);
/// Why the check does not apply, or null when it does.
const NotApplicable* find_not_applicable(const CheckOutcome& outcome, std::string_view check);

}  // namespace panel_dossier::testing
