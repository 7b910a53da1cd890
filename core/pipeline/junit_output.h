// checks.xml: the verdicts in JUnit form, for a build server.
#pragma once

#include <string>

#include "core/api/model/project.h"
#include "core/pipeline/run.h"

namespace panel_dossier {

/// One suite a plugin, one case a finding. `fail` is a failure; `evidence needed` and `not assessed` are skipped with
/// their reason; a plugin failure is an error in a suite of its own.
std::string junit_xml(const Project& project, const Results& results);

}  // namespace panel_dossier
