// The fire resistance that is required of a panel: as the fire engineer gives it, or as national tables do.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/fire/evidence/resistance_class.h"
#include "plugins/fire/tables.h"

namespace panel_dossier::fire {

extern const CheckDeclaration kRequiredResistanceCheck;

/// What the tables ask of an external wall.
struct TableRequirement {
  std::optional<ResistanceClass> asked;  ///< none when nothing is asked (`nothing_asked`) or it cannot be told
  bool nothing_asked = false;
  /// What is asked at most where `missing` is the setting building.sprinklers alone.
  std::optional<ResistanceClass> at_most;
  std::string missing;  ///< why it cannot be told: a setting, or no row for the jurisdiction; else empty
  std::optional<Sourced<double>> period_min;
  std::optional<Sourced<std::string>> sides;
};

/// From project.jurisdiction, project.use, the height of the top storey, building.sprinklers,
/// building.compartment_area_m2 and the distance to the relevant boundary (Panel_FireRequirement.BoundaryDistance, else
/// building.boundary_distance_m; the strictest row where neither says).
TableRequirement table_requirement(const Panel& panel, const Project& project, const Settings& settings,
                                   const Tables& tables, bool load_bearing);

/// The class asked for and where it comes from: the first of these that is given.
struct Requirement {
  std::optional<ResistanceClass> asked;            ///< none when what is given cannot be read or the tables give none
  std::optional<Sourced<std::string>> of_panel;    ///< Panel_FireRequirement.Resistance
  std::optional<Sourced<double>> of_building_min;  ///< setting building.fire_resistance_minutes
  TableRequirement table;
  /// Why the class stated is an open point: it is below what the tables ask, or no table checks it and no document that
  /// serves gives it. Else empty.
  std::string open_point;
  const Evidence* document = nullptr;  ///< that gives the class stated, where the panel names one and it is there

  /// Sides from which the panel is attacked: those of the class asked for, else those of the tables.
  FireDirection sides() const;
};

/// From Panel_FireRequirement.Resistance, else building.fire_resistance_minutes for EI (with R where the panel is
/// load-bearing), else the tables. A class stated where no table can be read rests on the document
/// Panel_FireRequirement.DocumentId, such as the fire strategy.
Requirement required_resistance(const Panel& panel, const Project& project, const Settings& settings,
                                const Tables& tables, bool load_bearing);
/// What it reads.
std::vector<CheckInput> requirement_inputs();

/// Why the export contradicts itself on whether the panel carries load: Pset_WallCommon.LoadBearing against the line
/// loads of Panel_Structure. Empty when it does not.
std::string load_contradiction(const Panel& panel);
/// The properties it reads.
std::vector<CheckInput> load_contradiction_inputs();

/// Records what `requirement` rests on as an input, and notes what is missing.
void add_requirement(FindingBuilder& builder, const Requirement& requirement, bool load_bearing);

/// fire.required_resistance: the class asked for beside that of the tables, with all that both rest on.
Finding resistance_requirement(const Panel& panel, const Project& project, const Settings& settings,
                               const Tables& tables);

}  // namespace panel_dossier::fire
