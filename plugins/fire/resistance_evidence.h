// Test evidence of fire resistance against what is required of a panel.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding_builder.h"
#include "core/api/project.h"
#include "core/api/settings.h"
#include "plugins/fire/resistance_class.h"

namespace panel_dossier::fire {

/// Class that is asked for, recorded as an input of the finding. From Panel_FireRequirement.Resistance, else from the
/// setting building.fire_resistance_minutes for EI, with R where the panel is load-bearing. None when neither says one;
/// what is missing is then noted in the builder.
std::optional<ResistanceClass> required_resistance(FindingBuilder& builder, const Panel& panel,
                                                   const Settings& settings, bool load_bearing);

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

/// Closes the finding: fail when the tested class is too short, evidence needed on any open point, else pass. The basis
/// is test evidence only when the document is present; without it the class is `declared, not shown`. `criteria` are
/// the letters judged, for example `EI`.
Finding judge_resistance(FindingBuilder& builder, const ResistanceClass& required, const ShownResistance& shown,
                         std::string_view criteria);

}  // namespace panel_dossier::fire
