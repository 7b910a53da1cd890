// What workshop and site wrote down of a panel: inspection and installation.
#pragma once

#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"

namespace panel_dossier::quantities {

extern const CheckDeclaration kRecordsCheck;

/// Whether the export or the tables of records tell anything of the panel; without that the check does not apply.
bool has_records(const Panel& panel);

/// Fails for a panel that was rejected, or installed before it was inspected, and for days that do not follow each
/// other
/// (`faults_of_order`); needs evidence where a result is open or absent, a day is absent or after the assessment, or
/// the panel was installed on a day without work.
Finding records(const Panel& panel, const Settings& settings);

/// Whether any panel has a day of installation.
bool any_installed(const Project& project);

/// How many panels were installed on another day than that of the programme; evidence is needed which of the two holds.
/// `erected` is by panel, the day of the programme; empty when `programme`, its finding, is not assessed.
Finding records_against_programme(const Project& project, const Finding& programme,
                                  const std::vector<std::string>& erected, const Settings& settings);

}  // namespace panel_dossier::quantities
