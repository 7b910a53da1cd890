// Test evidence of fire resistance against what is required of a panel.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "plugins/fire/evidence/requirement.h"
#include "plugins/fire/evidence/resistance_class.h"

namespace panel_dossier::fire {

/// What the evidence shows, and every point on which it does not yet cover the panel.
struct ShownResistance {
  std::optional<ResistanceClass> tested;
  bool document_present = false;         ///< the file of the document that the panel names is there
  std::vector<std::string> open_points;  ///< empty: the evidence covers the panel
};

/// Reads Panel_FireEvidence and Pset_WallCommon.FireRating, records them as inputs and adds the table of the field of
/// application. The load is compared when `load_bearing`.
ShownResistance shown_resistance(FindingBuilder& builder, const Panel& panel, const Project& project,
                                 bool load_bearing);

/// Closes the finding: fail when the tested class is too short in any criterion, evidence needed on any open point or
/// a requirement below that of the tables, else pass. The basis
/// is test evidence only when the document is present; without it the class is `declared, not shown`. `criteria` are
/// the letters judged, for example `EI`.
Finding judge_resistance(FindingBuilder& builder, const Requirement& requirement, const ShownResistance& shown,
                         std::string_view criteria);

}  // namespace panel_dossier::fire
