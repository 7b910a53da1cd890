// The canonical text of a panel: what its hash is taken over.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/pipeline/record/recorded_finding.h"

namespace panel_dossier {

/// Everything the export says of the panel, its parts, layers, openings, evidence references and the materials it
/// uses, in the canonical JSON of RFC 8785 (2020). Does not depend on line numbers, on the order of attributes and
/// properties, on other panels, or on whether evidence files are at hand, so it can be made again from the export
/// alone. Lengths, volumes and directions are rounded to 1e-9 of their unit, so that the last binary digit of another
/// compiler's geometry changes nothing. Throws std::runtime_error when a number is not finite.
std::string canonical_panel(const Panel& panel, const Project& project);

/// The findings of a panel as they stand in results.json, in canonical JSON: each names its derivation by hash. Throws
/// std::runtime_error naming the check whose numbers are not all finite.
std::string canonical_findings(const std::vector<RecordedFinding>& findings);

}  // namespace panel_dossier
