// Lengths of the joints that have to be sealed around a panel and its openings.
#pragma once

#include "core/api/finding/check_declaration.h"
#include "core/api/finding/finding.h"
#include "core/api/model/panel.h"
#include "core/api/model/project.h"

namespace panel_dossier::thermal {

/// In m.
struct JointLengths {
  double head_m = 0.0;
  double sole_m = 0.0;
  double sides_m = 0.0;     ///< both
  double openings_m = 0.0;  ///< perimeter of every opening, thresholds included

  double total_m() const { return head_m + sole_m + sides_m + openings_m; }
};

JointLengths joint_lengths(const Panel& panel);

extern const CheckDeclaration kJointLengthCheck;

/// `thermal.joint_length` in m with the tape schedule, as information; of one panel.
Finding check_joints(const Panel& panel);

/// The same for all panels together. A joint between two panels counts with each of them.
Finding total_joints(const Project& project);

}  // namespace panel_dossier::thermal
