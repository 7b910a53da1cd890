// The wind pressures on one panel by the zones A to E of the vertical walls that it stands in, with their external
// pressure coefficients: EN 1991-1-4:2005+A1:2010 5.2, 7.2.1, 7.2.2, 7.2.9.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"
#include "core/api/support/data_table.h"
#include "plugins/structural/basis/stretch.h"
#include "plugins/structural/wind/facade.h"
#include "plugins/structural/wind/site.h"

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

/// A rectangular block as one of its façades sees it.
struct BlockSize {
  double along_m = 0.0;   ///< length of the façade from corner to corner
  double across_m = 0.0;  ///< depth of the building behind it
  double height_m = 0.0;

  double slenderness_frontal() const { return height_m / across_m; }  ///< h/d, wind onto the façade
  double slenderness_side() const { return height_m / along_m; }      ///< h/d, wind along the façade
  /// e for wind along the façade.
  double side_zone_length_m() const { return zone_length_m(across_m, height_m); }
};

/// Settings `building.width_m` (along the project's x axis) and `building.depth_m` (along y), else the extent of the
/// panels where they stand on all four sides. Notes what is missing or contradicts and gives none.
std::optional<BlockSize> read_block_size(FindingBuilder& builder, const Facade& facade, const Settings& settings,
                                         double height_m);

struct InternalCoefficients {
  double maximum = 0.2;   ///< 7.2.9(6) note 2
  double minimum = -0.3;  ///< likewise
};

/// Settings `structural.wind.internal_pressure_maximum` and `_minimum`, else the pair of the note.
InternalCoefficients read_internal_coefficients(FindingBuilder& builder, const Settings& settings);

/// Pressure of one zone on the part of the panel that lies in it; positive towards the building.
struct ZonePressure {
  std::string wind;  ///< where it comes from
  WindZone zone = WindZone::a;
  double share = 0.0;               ///< of the panel's area
  double reference_height_m = 0.0;  ///< ze
  double exposure_factor = 0.0;     ///< ce(ze)
  double external = 0.0;            ///< cpe
  double internal = 0.0;            ///< cpi, the more onerous
  double net_pa = 0.0;
};

struct PanelPlace {
  Stretch from_left;   ///< from the left corner of the façade, seen from outside, to the panel's edges
  Stretch from_right;  ///< likewise from the right corner
  HeightAboveGround height;
};

/// Where the panels of the export do not reach from corner to corner, every panel may stand as far to either side as
/// the rest of the façade allows, so its stretches are longer than it is.
PanelPlace place_on_facade(const Panel& panel, const Facade& facade, const BlockSize& size,
                           const HeightAboveGround& height);

/// Wind onto the façade, onto the one behind, and along it from either side. Needs slenderness up to
/// kMaximumSlenderness both ways, area > 0, a top above ground and a reference height up to kMaximumWindHeight_m.
std::vector<ZonePressure> zone_pressures(const WindSite& site, const BlockSize& size, const PanelPlace& place,
                                         const InternalCoefficients& internal, const DataTable& coefficients,
                                         double area_m2);

}  // namespace panel_dossier::structural
