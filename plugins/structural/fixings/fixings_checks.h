// The checks of what holds cladding to a panel and a panel to the frame of the building, and what its brackets carry
// into the frame: statics of a plate held in rows across its height.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/studs/stud_design.h"
#include "plugins/structural/tables.h"

namespace panel_dossier::structural {

/// Characteristic actions on a panel of `width_m`, held in rows of brackets.
struct FrameActions {
  double width_m = 0.0;
  double wind_pa = 0.0;  ///< outwards or inwards, whichever is larger
  double wind_psi0 = 0.0;
  double barrier_n_per_m = 0.0;  ///< of persons leaning on the panel, along the hardest loaded row
  double barrier_psi0 = 0.0;
  double wind_height_m = 0.0;   ///< of wall whose wind comes to the hardest loaded row
  double weight_n = 0.0;        ///< that the brackets carry; 0 where the panel stands on the floor
  double eccentricity_m = 0.0;  ///< of the weight from the face of the frame
  double rows_apart_m = 0.0;    ///< from the row that carries the weight to the row farthest from it
  double brackets_in_row = 1.0;
  double bracket_spacing_m = 0.0;  ///< e, at most
  double stud_spacing_m = 0.0;     ///< s, of the hardest pressed stud to its neighbour; 0 without one
  double stud_width_m = 0.0;       ///< of wall that stud carries
};

/// Design forces on one bracket, N.
struct BracketForces {
  double across_n = 0.0;   ///< wind and persons leaning, each leading in turn, over `wind_width_m`
  double barrier_n = 0.0;  ///< persons leaning alone
  double couple_n = 0.0;   ///< γ_G·G·e/(z·n): the weight tips the panel away from the frame at its head
  double shear_n = 0.0;    ///< γ_G·G/n

  double tension_n() const { return across_n + couple_n; }
};

/// Share of the wind along a row in m that comes to the hardest loaded bracket: b/n, e, or with a stud right at it
/// b_t·(1 + 2·Σ(1 − i·s/e)) for the studs up to the next brackets.
double wind_width_m(const FrameActions& actions);

/// `gamma_g` and `gamma_q` are the unfavourable partial factors. `rows_apart_m` > 0 where there is weight to carry.
BracketForces bracket_forces(const FrameActions& actions, double gamma_g, double gamma_q);

extern const CheckDeclaration kFrameFixingsCheck;
extern const CheckDeclaration kFrameMovementCheck;
extern const CheckDeclaration kCladdingFixingsCheck;

/// The greatest of bracket and screws against what they allow, at most 1. `design` is that of the panel's studs.
Finding frame_fixings(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                      const StudDesign& design);

/// The larger share of what a fixing of the cladding and one of its battens may take, pulled by the wind, at most 1.
/// For a panel that bears cladding. `design` is that of the panel's studs.
Finding cladding_fixings(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                         const StudDesign& design);

/// The larger of the frame's movement at the head over what the joint allows and of its
/// tolerance over the brackets' adjustment, at most 1.
Finding frame_movement(const Panel& panel, const Settings& settings);

}  // namespace panel_dossier::structural
