// The checks of the discipline, one or two functions each. Lengths in m, masses in kg, forces in kN, times in h.
#pragma once

#include <vector>

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/api/plugin.h"

namespace panel_dossier::quantities {

/// All declarations, in the dossier's order.
const std::vector<CheckDeclaration>& checks();

/// Every check of panels for one panel.
CheckOutcome check_panel(const Panel& panel, const Project& project, const Settings& settings);
/// Every check of the project; `panels` holds the panels' own findings of this discipline in the project's order.
CheckOutcome check_project(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings);

extern const CheckDeclaration kAreaCheck;
/// Net area of the face in m², every opening deducted in full.
Finding area(const Panel& panel, const Settings& settings);

extern const CheckDeclaration kMassCheck;
/// Mass as lifted in kg, with a table by material.
Finding mass(const Panel& panel, const Project& project);
/// Of all panels, with the panels' tables merged.
Finding project_mass(const Project& project, const std::vector<PanelFindings>& panels);

extern const CheckDeclaration kCentreOfGravityCheck;
/// Signed distance in m of the centre of gravity from the middle of the panel's width, positive towards +x of the
/// panel's frame; x, y and z of the centre are named values.
Finding centre_of_gravity(const Panel& panel, const Project& project);

extern const CheckDeclaration kLoadsCheck;
/// Self-weight of the panel in kN; the weight per metre of support is a step.
Finding loads(const Panel& panel, const Project& project);

extern const CheckDeclaration kTakeOffCheck;
/// Volume in m³ of the materials of the panel, with net and gross measures of each in a table.
Finding take_off_measures(const Panel& panel, const Project& project, const Settings& settings);
/// Of all panels, with the panels' tables merged, as a whole and by storey.
Finding project_take_off(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings);

extern const CheckDeclaration kCostsCheck;
/// Whether the settings hold any `quantities.rates`; without them the check does not apply.
bool rates_given(const Settings& settings);
/// Net amount of each material times its rate, in the currency of the rates. `not assessed`, with the sum of what is
/// priced as named value `priced`, when a material of the panel has no rate, cannot be measured in the unit of its
/// rate, or shares its name with another; those are named.
Finding costs(const Panel& panel, const Project& project, const Settings& settings);
/// The sum over the panels with their tables merged; as long as any is not assessed, the sum of what is priced as a
/// step.
Finding project_costs(const Project& project, const std::vector<PanelFindings>& panels, const Settings& settings);

extern const CheckDeclaration kFixingsCheck;
/// Number of fasteners, with a table by type.
Finding fixings(const Panel& panel, const Project& project);
/// Of all panels, with the panels' tables merged.
Finding project_fixings(const Project& project, const std::vector<PanelFindings>& panels);

extern const CheckDeclaration kCuttingListCheck;
/// Number of pieces to cut; the list is the table `pieces`.
Finding cutting_list(const Panel& panel, const Project& project, const Settings& settings);

extern const CheckDeclaration kStockYieldCheck;
/// Share in % of the bought stock length that ends up in framing members of the project.
Finding stock_yield(const Project& project, const Settings& settings);

extern const CheckDeclaration kSheetYieldCheck;
/// Share in % of the bought area of sheets and slabs that ends up in the panels.
Finding sheet_yield(const Project& project, const Settings& settings);

extern const CheckDeclaration kAssemblyCheck;
/// Number of pieces to put together, with the order of work and its hold points.
Finding assembly(const Panel& panel, const Project& project, const Settings& settings);

/// What `as_built_size` reads, behind `others`.
std::vector<CheckInput> as_built_inputs(std::vector<CheckInput> others);
extern const CheckDeclaration kAsBuiltSizeCheck;
/// Largest deviation in m of the sizes measured in the workshop from their targets, at most setting
/// `quantities.size_tolerance_m`; the difference of the diagonals or a joint clearance where that does not hold.
Finding as_built_size(const Panel& panel, const Settings& settings);

extern const CheckDeclaration kErectionTimeCheck;
/// Hours of crane and crew: of the cycle of a lift where setting `quantities.lift_cycle` describes it, else from the
/// gross area and setting `quantities.crew_area_rate_m2_per_h`; batch and erection order are named values where they
/// are known.
Finding erection_time(const Panel& panel, const Settings& settings);
/// Of all panels. `not assessed` where the settings hold both, cycle and output, and the two differ by more than a
/// quarter over the whole project.
Finding project_erection_time(const Project& project, const std::vector<PanelFindings>& panels,
                              const Settings& settings);

}  // namespace panel_dossier::quantities
