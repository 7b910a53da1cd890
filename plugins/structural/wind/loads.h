// The wind pressures on one panel by the zones it stands in: EN 1991-1-4:2005+A1:2010 5.2, 7.2.2, 7.2.9.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/api/finding/finding_builder.h"
#include "core/api/model/settings.h"
#include "plugins/structural/wind/facade.h"
#include "plugins/structural/wind/site.h"
#include "plugins/structural/wind/zones.h"

namespace panel_dossier::structural {

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
