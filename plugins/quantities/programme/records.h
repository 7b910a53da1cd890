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
/// (`faults_of_order`); needs evidence where a result is open or absent, a day is absent or after the assessment, the
/// panel was installed on a day without work, or it was accepted although its size as built fails.
Finding records(const Panel& panel, const Settings& settings);

/// Whether any panel has a day of installation, or should have by the programme on the day of assessment. `erected` as
/// below.
bool installation_has_begun(const Project& project, const std::vector<std::string>& erected, const Settings& settings);

/// How many panels were installed on another day than that of the programme, or should be by the day of assessment and
/// have none; evidence is needed which of the two holds.
/// `erected` is by panel, the day of the programme; empty when `programme`, its finding, is not assessed.
Finding records_against_programme(const Project& project, const Finding& programme,
                                  const std::vector<std::string>& erected, const Settings& settings);

}  // namespace panel_dossier::quantities
