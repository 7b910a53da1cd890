// structural.wind_pressure: the characteristic wind pressure on a panel, and the largest of the project with its
// façades.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/origin.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"
#include "plugins/structural/tables.h"
#include "plugins/structural/wind/facade.h"

namespace panel_dossier::structural {

extern const CheckDeclaration kWindPressureCheck;

/// What the wind pressure on a panel and on its parts rests on, for declarations; all but tables optional.
std::vector<CheckInput> wind_inputs();

/// Clause of the project's finding: heights and zones of all façades.
inline constexpr const char* kFacadesClause = "EN 1991-1-4:2005+A1:2010 5.2, 7.2.2";

/// The pressure with which members and fixings of a panel are checked. They carry less than the panel's area, where the
/// coefficients of zones are larger (EN 1991-1-4 7.2.1): that of 1 m² is safe for each of them. A given pressure and
/// one by a single coefficient stand as they are.
struct PartsPressure {
  std::optional<Sourced<double>> characteristic_pa;  ///< origin: the given pressure, else the wind velocity
  std::string why_none;  ///< `structural.wind_pressure is not assessed: …` when there is none; else empty
};

struct PanelWind {
  Finding finding;
  PartsPressure on_parts;
};

/// Value in Pa, the larger of inward and outward pressure. Panel_Structure.DesignWindPressure of the export when given
/// (basis declared); else qp(ze)·c with setting `structural.wind.external_pressure_coefficient` when given; else by the
/// zones the panel stands in. `not assessed` names what is missing, or says that what is given is lower than the zones'
/// result by more than 5 %. `panel` is one of the project's, `facades` its layout.
PanelWind wind_pressure(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                        const FacadeLayout& facades);

/// Value in Pa: the largest of the panels' findings structural.wind_pressure. `not assessed` when no panel has one;
/// panels without one are named in a note.
Finding project_wind_pressure(const Project& project, const std::vector<PanelFindings>& panels,
                              const Settings& settings, const FacadeLayout& facades);

}  // namespace panel_dossier::structural
