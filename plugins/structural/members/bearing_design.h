// Compression across the grain of a rail under a stud: EN 1995-1-1:2004+A1:2008 6.1.5.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "plugins/structural/basis/timber.h"
#include "plugins/structural/studs/stud_design.h"

namespace panel_dossier::structural {

/// A stud's contact with a rail, along the rail's grain; lengths in m, >= 0.
struct Contact {
  double length_m = 0.0;    ///< l
  double width_m = 0.0;     ///< across the rail's grain
  double end_left_m = 0.0;  ///< a: from the contact to the end of the rail
  double end_right_m = 0.0;
  std::optional<double> gap_left_m;  ///< l1: clear distance to the next contact; none without one
  std::optional<double> gap_right_m;
  double rail_depth_m = 0.0;  ///< h of the rail
};

/// What 6.1.5(1) adds to the contact length on either side: 30 mm, but not more than a, l or l1/2.
double spread_left_m(const Contact& contact);
double spread_right_m(const Contact& contact);

/// 6.1.5(1): the contact length and on either side 30 mm, but not more than a, l or l1/2.
double effective_contact_length_m(const Contact& contact);

/// kc,90 of 6.1.5(3) for a rail on a continuous support: 1.25 for solid softwood and 1.5 for glued laminated softwood
/// where l1 >= 2·h on both sides, else 1.0.
double bearing_factor(TimberFamily family, const Contact& contact);

/// A stud or post on its rail under one combination, at the foot.
struct BearingCase {
  std::size_t member = 0;
  std::size_t rail = 0;  ///< index into Panel::parts
  Contact contact;
  Combination combination;
  Sourced<double> modification_factor;
  double bearing_factor = 1.0;
  double stress_pa = 0.0;
  double strength_pa = 0.0;  ///< fc,90,d

  double utilisation() const { return stress_pa / (bearing_factor * strength_pa); }
};

struct BearingDesign {
  std::vector<BearingCase> cases;
  std::map<std::size_t, MemberMaterial> rails;  ///< by part
  std::vector<std::string> missing;             ///< not empty: the cases are not complete
};

/// Precondition: `design.missing` is empty. At the foot the whole weight of the panel presses.
BearingDesign design_bearing(const Panel& panel, const Project& project, const Settings& settings, const Tables& tables,
                             const StudDesign& design);

}  // namespace panel_dossier::structural
