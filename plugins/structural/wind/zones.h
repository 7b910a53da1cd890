// Zones A to E of the vertical walls of a rectangular building and their external pressure coefficients: EN
// 1991-1-4:2005 +A1:2010 7.2.1, 7.2.2.
#pragma once

#include <vector>

#include "core/api/support/data_table.h"
#include "plugins/structural/basis/stretch.h"

namespace panel_dossier::structural {

enum class WindZone { a, b, c, d, e };

/// `A` to `E`.
const char* to_string(WindZone zone);

/// Beyond this ratio of height to depth table 7.1 ends and the total force goes by 7.6 to 7.9.
inline constexpr double kMaximumSlenderness = 5.0;

/// e of figure 7.5: the lesser of b and 2·h, with b the size of the building across the wind.
double zone_length_m(double across_wind_m, double height_m);

struct ZoneStretch {
  WindZone zone = WindZone::a;
  Stretch stretch;
};

/// Zones of a wall that lies along the wind, from its windward edge: A up to e/5, B up to e, C up to d, as far as the
/// wall of length d > 0 reaches.
std::vector<ZoneStretch> side_wall_zones(double zone_length_m, double wall_length_m);

/// Of a windward wall from the ground up, figure 7.4: one strip when h <= b; up to b and the rest when h <= 2·b; else
/// the lowest and highest b and, between them, the fewest equal strips that are not taller than b. Each strip has the
/// velocity pressure of its upper edge.
std::vector<Stretch> windward_strips(double height_m, double across_wind_m);

/// cpe of table 7.1 for a loaded area > 0: cpe,1 up to 1 m², cpe,10 from 10 m², between them by the logarithm of the
/// area (figure 7.2). Needs 0 < slenderness h/d <= kMaximumSlenderness and a table with all rows (throws
/// std::runtime_error otherwise).
double external_pressure_coefficient(const DataTable& table, WindZone zone, double area_m2, double slenderness);

}  // namespace panel_dossier::structural
